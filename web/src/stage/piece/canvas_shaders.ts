/** Shaders of the canvas's surface: its weave, the edge that it is pulled over, the seams of its corners. */

import { FULL_SLOPE, MEAN_HEIGHT, WEAVE_TILE_MM } from "./weave";

/** Canvas pulled tight bends over the edge within this much of it; from memory. */
const EDGE_MM = 1.5;

/** The weave bends the normal; `sheet` is the place on the flat canvas in mm, `px` and `ux` are steps between pixels. */
export const WEAVE = /* glsl */ `
uniform sampler2D weave;

// The directions of the flat sheet's x and y on the surface, from one pixel's steps on surface and sheet: the chain rule.
void sheetAxes(vec3 px, vec3 py, vec2 ux, vec2 uy, out vec3 axisX, out vec3 axisY) {
  float area = ux.x * uy.y - uy.x * ux.y;
  float scale = abs(area) > 1e-9 ? 1.0 / area : 0.0;
  axisX = (px * uy.y - py * ux.y) * scale;
  axisY = (py * ux.x - px * uy.x) * scale;
}

// The weave is let out before its threads come near a pixel's size, so that it never makes moire.
float weaveShown(float footprint) { return 1.0 - smoothstep(0.16, 0.4, footprint); }

// Slopes along the sheet's x and y, height above the mean, roughness.
vec4 weaveAt(vec2 sheet, vec2 ux, vec2 uy) {
  const float perMm = 1.0 / ${WEAVE_TILE_MM.toFixed(3)};
  vec4 tile = textureGrad(weave, sheet * perMm, ux * perMm, uy * perMm);
  return vec4((tile.rg * 255.0 - 128.0) / 127.0 * ${FULL_SLOPE.toFixed(3)}, tile.b - ${MEAN_HEIGHT.toFixed(3)}, tile.a);
}
`;

/** The normal of the folded canvas, bent over the edge. */
export const EDGE = /* glsl */ `
// Width and height of the face, depth of the bars, and the turn-over, mm.
uniform vec4 box;
// 1 with the canvas folded, 0 on the way there.
uniform float folded;

// The normal of a box with round edges.
vec3 outwards(vec3 n, vec3 p) {
  float r = min(${EDGE_MM.toFixed(2)}, 0.25 * box.z);
  vec3 low = vec3(0.0, 0.0, -box.z) + r;
  vec3 high = vec3(box.xy, 0.0) - r;
  return normalize(p - clamp(p, low, high) + n * 1e-3);
}

// Only where the printed side is outermost is the box's normal the sheet's.
vec3 overEdge(vec3 n, vec3 p) {
  vec3 m = outwards(n, p);
  return normalize(mix(n, m, folded * step(0.4, dot(n, m))));
}
`;

/** Where canvas lies on canvas: the soft dark line beside an edge, and beside the seam of a corner. */
export const SEAMS = /* glsl */ `
// Corner finish: 0 none, 1 tucked, 2 lapped, 3 trimmed; over pair: 0 top and bottom, 1 left and right.
uniform vec2 corners;

// A line a few tenths of a millimetre wide, kept at its darkness when a pixel is wider than it.
float thinLine(float off, float halfWidth, float footprint) {
  float wide = max(halfWidth, 0.8 * footprint);
  float d = off / wide;
  return exp(-d * d) * halfWidth / wide;
}

float lyingUnder(float off, float reach) {
  return off < 0.0 ? 0.0 : exp(-off / reach);
}

// What is left of the light.
float seams(vec3 p, vec3 n, vec2 sheet, float footprint) {
  if (corners.x < 0.5) return 1.0;
  bool upright = corners.y > 0.5;
  // Distance inwards from the under sides and from the over sides.
  vec2 inner = min(p.xy, box.xy - p.xy);
  float fromUnder = upright ? inner.y : inner.x;
  float fromOver = upright ? inner.x : inner.y;
  float facesOver = abs(upright ? n.x : n.y);
  float depth = clamp(-p.z, 0.0, box.z);
  float dark = 0.0;
  if (n.z < -0.7) {
    // The turn-over that lies on top, at the corners of the back.
    bool lapped = corners.x > 1.5 && corners.x < 2.5;
    float on = lapped ? fromOver : fromUnder;
    float off = (lapped ? fromUnder : fromOver) - box.w;
    if (on < box.w && off > 0.0) dark = 0.4 * lyingUnder(off, 1.1);
  } else if (facesOver > 0.7) {
    vec2 past = max(-sheet, sheet - box.xy);
    bool square = min(past.x, past.y) > 0.01;
    if (corners.x > 1.5 && corners.x < 2.5) {
      // The flap's edge runs at 45 degrees from the face's corner to the wall.
      float off = (fromUnder - depth) * 0.7071;
      dark = square ? 0.22 * thinLine(off, 0.5, footprint) : 0.42 * lyingUnder(off, 1.2 + footprint);
    } else {
      dark = (corners.x > 2.5 ? 0.5 : 0.38) * thinLine(fromUnder, 0.45, footprint);
    }
  } else if (abs(n.z) < 0.7 && (corners.x < 1.5 || corners.x > 2.5)) {
    // The under side ends below the over side's edge.
    dark = 0.3 * thinLine(fromOver, 0.35, footprint);
  }
  return 1.0 - folded * dark;
}
`;
