/** Shaders of canvas and wood: matte, without any gloss. */

import { EDGE, SEAMS, WEAVE } from "./canvas_shaders";
import { ENCODE, LIGHT, NOISE, PLACE } from "../drawing/glsl";
import { ROUNDING } from "../look/rounding";
import { LOOK } from "../look/shaders";

export const SHEET_VERTEX = /* glsl */ `
// The piece's own rows of the texture: where they begin, and their share of it.
uniform vec2 uvRows;
// Where the corner lies on the flat sheet, mm.
attribute vec3 sheet;
varying vec2 vSheet;
varying vec3 vLocal;
varying vec3 vFlat;
varying vec2 vUv;
${PLACE}
void main() {
  vLocal = position;
  vFlat = normal;
  vSheet = sheet.xy;
  vUv = vec2(uv.x, uvRows.x + uv.y * uvRows.y);
  gl_Position = placed();
}
`;

export const SHEET_FRAGMENT = /* glsl */ `
uniform sampler2D picture;
uniform vec3 canvasColour;
// The opening between the bars (left, bottom, right, top) and how deep it is, mm.
uniform vec4 opening;
uniform float openingDepth;
uniform float flatLight;
varying vec2 vSheet;
varying vec3 vLocal;
varying vec3 vWorld;
varying vec3 vFlat;
varying vec2 vUv;
${LIGHT}
${ENCODE}
${LOOK}
${ROUNDING}
${WEAVE}
${EDGE}
${SEAMS}

// The share of the sky that a wall of height h hides from a point at distance d beside it:
// the view factor of a long upright strip, (1 - d / sqrt(d^2 + h^2)) / 2.
float hidden(float d, float h) {
  return 0.5 - 0.5 * d / sqrt(d * d + h * h);
}

// Threads stand up at grazing sight and catch a little light: faint, broad, and nothing of it seen from the front.
vec3 sheen(vec3 n, vec3 light, float rough) {
  float graze = 1.0 - abs(dot(n, normalize(cameraPosition - vWorld)));
  float squared = graze * graze;
  return light * (0.1 * (1.6 - rough) * squared * squared);
}

void main() {
  // Looked up on both sides of the sheet, for the slopes that filtering needs; the raw back is never printed.
  vec3 printed = looked(texture2D(picture, vUv).rgb, vUv);
  vec3 px = dFdx(vLocal);
  vec3 py = dFdy(vLocal);
  vec2 ux = dFdx(vSheet);
  vec2 uy = dFdy(vSheet);
  vec3 flatNormal = gl_FrontFacing ? vFlat : -vFlat;
  // Once it is folded, inner sides are seen only in the slits between layers, and where their bulk stands
  // out behind the bars; the back of the face is not among it.
  bool inFold = folded > 0.5 && (gl_FrontFacing ? dot(vFlat, outwards(vFlat, vLocal)) < 0.0 : flatNormal.z > -0.9);
  if (gl_FrontFacing && flatLight > 0.5 && !inFold) {
    gl_FragColor = vec4(nearestBytes(encode(printed)), 1.0);
    return;
  }
  vec3 n = flatNormal;
  vec3 colour = gl_FrontFacing ? printed : canvasColour;
  float key = 1.0;
  float sky = 1.0;
  vec4 inside = vec4(vLocal.xy - opening.xy, opening.zw - vLocal.xy);
  if (inFold) {
    // In deep shade, and with the ink of the fold that runs round its edge.
    colour = printed;
    key = 0.22;
    sky = 0.4;
  } else if (gl_FrontFacing || n.z > -0.9) {
    // A side is darker where it comes near the wall.
    sky -= 0.42 * (1.0 - abs(n.z)) * exp(-max(vWorld.z, 0.0) / 0.011);
  } else if (min(min(inside.x, inside.y), min(inside.z, inside.w)) > -opening.x) {
    // The back of the face, at the bottom of the opening between the bars, or under the bars themselves
    // (the opening begins one bar's width in from the face's corner).
    vec4 room = max(inside, 0.0);
    sky -= hidden(room.x, openingDepth) + hidden(room.y, openingDepth)
      + hidden(room.z, openingDepth) + hidden(room.w, openingDepth);
    // The bars towards the light throw a shadow: a ray to it has this height where it meets them. Seen from the
    // back the light comes mirrored, as in roomLight; how far the shadow falls does not depend on the side.
    vec2 slope = max(abs(keyDirection.xy), 0.05);
    vec2 away = vec2(keyDirection.x < 0.0 ? room.z : room.x, room.w);
    vec2 free = smoothstep(vec2(-0.35), vec2(0.45), away * keyDirection.z / slope / openingDepth - 1.0);
    key = free.x * free.y;
    // Pale wood and canvas throw some of the light back.
    sky = max(sky, 0.0) * 0.8 + 0.2;
    colour *= mix(vec3(0.96, 0.9, 0.82), vec3(1.0), 0.4 + 0.6 * key);
  }
  float rough = 0.8;
  float footprint = max(length(ux), length(uy));
  if (gl_FrontFacing && !inFold) {
    n = overEdge(n, vLocal);
    float seam = seams(vLocal, flatNormal, vSheet, footprint);
    key *= seam;
    sky *= seam;
  }
  float woven = weaveShown(footprint);
  if (woven > 0.0) {
    vec4 threads = weaveAt(vSheet, ux, uy);
    vec3 axisX;
    vec3 axisY;
    sheetAxes(px, py, ux, uy, axisX, axisY);
    // The raw back is the same cloth, seen from behind.
    n = normalize(n - woven * (axisX * threads.x + axisY * threads.y) * (gl_FrontFacing ? 1.0 : -1.0));
    colour *= 1.0 + 0.1 * woven * threads.z;
    rough = mix(rough, threads.w, woven);
  }
  vec3 light = roomLight(n, key, sky);
  vec3 encoded = encode(colour * light + sheen(n, light, rough));
  // The printed side is never dithered: its colours are what the texture says.
  gl_FragColor = vec4(gl_FrontFacing ? nearestBytes(encoded) : dithered(encoded), 1.0);
}
`;

export const WOOD_VERTEX = /* glsl */ `
attribute vec3 grain;
varying vec3 vFlat;
varying vec3 vGrain;
varying vec3 vLocal;
${PLACE}
void main() {
  vLocal = position;
  vFlat = normal;
  vGrain = grain;
  gl_Position = placed();
}
`;

export const WOOD_FRAGMENT = /* glsl */ `
uniform vec3 woodColour;
// Width and height of the face, depth of the bars, and the turn-over, mm.
uniform vec4 box;
uniform float folded;
varying vec3 vFlat;
varying vec3 vGrain;
varying vec3 vLocal;
varying vec3 vWorld;
${LIGHT}
${ENCODE}
${NOISE}
void main() {
  vec2 p = vec2(vGrain.x, vGrain.y + 137.0 * vGrain.z);
  float bend = noise(vec2(p.x * 0.006, p.y * 0.03)) * 5.0;
  float rings = noise(vec2(p.x * 0.012, (p.y + bend) * 0.42));
  float fibre = noise(vec2(p.x * 0.09, p.y * 2.6));
  float tone = 0.9 + 0.17 * rings + 0.07 * fibre + 0.05 * noise(vec2(vGrain.z * 7.7, 3.1));
  vec3 colour = woodColour * mix(vec3(tone, tone * tone, tone * tone * tone), vec3(tone), 0.55);
  vec2 inner = min(vLocal.xy, box.xy - vLocal.xy);
  float shade = 1.0;
  // Wrapped canvas covers front and outer sides: what a hairline between two facets shows of them lies in the dark.
  if (vFlat.z > 0.1 || dot(vFlat.xy, vLocal.xy - 0.5 * box.xy) > 0.0) shade -= 0.75 * folded;
  if (vFlat.z < -0.9) {
    // The mitre's joint (bars have the numbers below 4, braces the others), and the shade beside the turn-over.
    float joint = abs(inner.x - inner.y) * 0.7071;
    float wide = max(0.25, fwidth(joint));
    if (vGrain.z < 3.5) shade -= 0.55 * exp(-joint * joint / (wide * wide)) * 0.25 / wide;
    float off = min(inner.x, inner.y) - box.w;
    if (off > 0.0) shade -= 0.4 * folded * exp(-off / 1.3);
  }
  gl_FragColor = vec4(dithered(encode(colour * shade * roomLight(normalize(vFlat), 1.0, 1.0))), 1.0);
}
`;
