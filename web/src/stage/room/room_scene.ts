/** The room: plaster wall, skirting, floor, and the backdrop behind them. Wall z = 0, floor y = 0, metres. */

import { Group, Mesh, PlaneGeometry, RedFormat, RGBAFormat, ShaderMaterial } from "three";
import type { Surroundings } from "../../contract/types";
import { besideScene } from "./beside_scene";
import { coveringTriangle } from "../drawing/geometry";
import { plasterTile } from "./plaster";
import { BACKDROP_FRAGMENT, BACKDROP_VERTEX, BASE_FRAGMENT, SKIRTING_M, VERTEX, WALL_FRAGMENT } from "./room_shaders";
import { tileTexture } from "../drawing/textures";
import type { SharedUniforms } from "../drawing/uniforms";
import type { Hanging } from "../camera/views";
import { weaveTile } from "../piece/weave";

const PLASTER_PX = 512;
const WEAVE_PX = 256;
const WIDE_M = 40;
const TALL_M = 14;
const SKIRTING_DEPTH_M = 0.014;

export interface RoomScene {
  readonly group: Group;
  /** Wall, skirting and floor; the backdrop always stays. */
  setShown(shown: boolean): void;
  /** Stand something beside what hangs there; gives its extent, for the camera. */
  setBeside(beside: Surroundings["beside"], hanging: Hanging): Hanging["beside"];
  dispose(): void;
}

export function roomScene(shared: SharedUniforms): RoomScene {
  const plaster = tileTexture(plasterTile(PLASTER_PX), PLASTER_PX, RedFormat);
  // Light and cloth are the same for all that hangs in the room.
  const weave = tileTexture(weaveTile(WEAVE_PX), WEAVE_PX, RGBAFormat);
  shared.weave.value = weave;
  const wallMaterial = new ShaderMaterial({
    uniforms: { ...shared, plaster: { value: plaster } },
    vertexShader: VERTEX,
    fragmentShader: WALL_FRAGMENT,
  });
  const base = (baseColour: SharedUniforms["floorColour"]): ShaderMaterial =>
    new ShaderMaterial({ uniforms: { ...shared, baseColour }, vertexShader: VERTEX, fragmentShader: BASE_FRAGMENT });
  const floorMaterial = base(shared.floorColour);
  const skirtingMaterial = base(shared.skirtingColour);
  const backdropMaterial = new ShaderMaterial({
    uniforms: { ...shared },
    vertexShader: BACKDROP_VERTEX,
    fragmentShader: BACKDROP_FRAGMENT,
    depthWrite: false,
  });

  const backdrop = new Mesh(coveringTriangle(), backdropMaterial);
  // At the far end of the depth range and last of all that is opaque: it costs only what nothing else covers.
  backdrop.renderOrder = 1;
  const wall = new Mesh(new PlaneGeometry(WIDE_M, TALL_M), wallMaterial);
  wall.position.set(0, TALL_M / 2, 0);
  const skirting = new Mesh(new PlaneGeometry(WIDE_M, SKIRTING_M), skirtingMaterial);
  skirting.position.set(0, SKIRTING_M / 2, SKIRTING_DEPTH_M);
  const skirtingTop = new Mesh(new PlaneGeometry(WIDE_M, SKIRTING_DEPTH_M), skirtingMaterial);
  skirtingTop.rotation.x = -Math.PI / 2;
  skirtingTop.position.set(0, SKIRTING_M, SKIRTING_DEPTH_M / 2);
  const floor = new Mesh(new PlaneGeometry(WIDE_M, TALL_M), floorMaterial);
  floor.rotation.x = -Math.PI / 2;
  floor.position.set(0, 0, TALL_M / 2);

  const built = [wall, skirting, skirtingTop, floor];
  const group = new Group();
  const beside = besideScene(shared);
  group.add(backdrop, ...built, beside.group);
  for (const mesh of [backdrop, ...built]) mesh.frustumCulled = false;
  return {
    group,
    setShown: (shown) => {
      for (const mesh of built) mesh.visible = shown;
      beside.group.visible = shown;
    },
    setBeside: (what, hanging) => beside.set(what, hanging),
    dispose: () => {
      for (const mesh of [backdrop, ...built]) mesh.geometry.dispose();
      for (const material of [wallMaterial, floorMaterial, skirtingMaterial, backdropMaterial]) material.dispose();
      plaster.dispose();
      weave.dispose();
      beside.dispose();
    },
  };
}
