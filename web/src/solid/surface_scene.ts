/** The canvas's gamut as a thin coloured glass, its inner side drawn before what it holds and its outer side after. */

import { BackSide, BufferAttribute, BufferGeometry, FrontSide, Group, Mesh, ShaderMaterial, type Side } from "three";
import { labPoints } from "./lab_space";
import { SURFACE_FRAGMENT, SURFACE_VERTEX } from "./shaders";
import type { SolidMesh } from "./types";

export interface SurfaceScene {
  readonly group: Group;
  setMesh(mesh: SolidMesh): void;
  dispose(): void;
}

/** Alpha of the far and of the near wall, seen squarely. */
const FAR = 0.3;
const NEAR = 0.13;

export function surfaceScene(): SurfaceScene {
  const wall = (side: Side, clearness: number): ShaderMaterial =>
    new ShaderMaterial({
      uniforms: { clearness: { value: clearness } },
      vertexShader: SURFACE_VERTEX,
      fragmentShader: SURFACE_FRAGMENT,
      side,
      transparent: true,
      depthWrite: false,
    });
  const materials = [wall(BackSide, FAR), wall(FrontSide, NEAR)] as const;
  let geometry = new BufferGeometry();
  const walls = materials.map((material) => new Mesh(geometry, material));
  const group = new Group();
  group.add(...walls);
  walls.forEach((mesh, i) => {
    mesh.frustumCulled = false;
    // The marks lie between: see marks_scene.ts.
    mesh.renderOrder = i === 0 ? 1 : 5;
  });
  return {
    group,
    setMesh: ({ lab, srgb, triangles }) => {
      geometry.dispose();
      geometry = new BufferGeometry();
      geometry.setAttribute("position", new BufferAttribute(labPoints(lab), 3));
      geometry.setAttribute("colour", new BufferAttribute(srgb, 3, true));
      geometry.setAttribute(
        "lightness",
        new BufferAttribute(
          lab.filter((_, i) => i % 3 === 0),
          1,
        ),
      );
      geometry.setIndex(new BufferAttribute(triangles, 1));
      geometry.computeVertexNormals();
      for (const mesh of walls) mesh.geometry = geometry;
    },
    dispose: () => {
      geometry.dispose();
      for (const material of materials) material.dispose();
    },
  };
}
