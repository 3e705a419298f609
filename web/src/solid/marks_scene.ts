/** The picture's colours: small dots inside, rimmed diamonds outside, each with a line to where it prints. */

import {
  BufferAttribute,
  Group,
  InstancedBufferAttribute,
  InstancedBufferGeometry,
  Mesh,
  ShaderMaterial,
  Vector3,
} from "three";
import { labPoints } from "./lab_space";
import { lines } from "./lines";
import { MARK_FRAGMENT, MARK_VERTEX } from "./shaders";
import { DARK_RIM, encodedColour, PALE_RIM } from "./theme";
import type { SolidPoints } from "./types";
import type { SolidUniforms } from "./uniforms";

/** Many lines lie side by side: each is faint. */
const SHIFT_STRENGTH = 0.38;

export interface MarksScene {
  readonly group: Group;
  setPoints(points: SolidPoints): void;
  dispose(): void;
}

export function marksScene(shared: SolidUniforms): MarksScene {
  const material = new ShaderMaterial({
    uniforms: {
      ...shared,
      darkRim: { value: new Vector3(...encodedColour(DARK_RIM)) },
      paleRim: { value: new Vector3(...encodedColour(PALE_RIM)) },
    },
    vertexShader: MARK_VERTEX,
    fragmentShader: MARK_FRAGMENT,
    transparent: true,
    // Opaque but for the smooth rim, so that the near wall of the solid is drawn over what lies behind it only.
    alphaToCoverage: true,
  });
  const marks = new Mesh(new InstancedBufferGeometry(), material);
  marks.frustumCulled = false;
  marks.renderOrder = 3;
  marks.visible = false;
  const shiftLines = lines(shared, { widthPx: 1, ink: shared.ink, renderOrder: 2 });
  const group = new Group();
  group.add(shiftLines.mesh, marks);
  return {
    group,
    setPoints: ({ lab, printedLab, srgb, share, difference }) => {
      const centres = labPoints(lab);
      const geometry = new InstancedBufferGeometry();
      geometry.setAttribute(
        "position",
        new BufferAttribute(new Float32Array([-1, -1, 0, 1, -1, 0, 1, 1, 0, -1, 1, 0]), 3),
      );
      geometry.setIndex([0, 1, 2, 0, 2, 3]);
      geometry.setAttribute("centre", new InstancedBufferAttribute(centres, 3));
      geometry.setAttribute("colour", new InstancedBufferAttribute(srgb, 3, true));
      geometry.setAttribute("share", new InstancedBufferAttribute(share, 1));
      geometry.setAttribute("difference", new InstancedBufferAttribute(difference, 1));
      geometry.instanceCount = share.length;
      marks.geometry.dispose();
      marks.geometry = geometry;
      marks.visible = share.length > 0;
      shiftLines.set({
        starts: centres,
        finishes: labPoints(printedLab),
        strengths: new Float32Array(share.length).fill(SHIFT_STRENGTH),
        differences: difference,
      });
    },
    dispose: () => {
      marks.geometry.dispose();
      material.dispose();
      shiftLines.dispose();
    },
  };
}
