/** How canvas and wood take the light: matte, without any gloss. */

import { ENCODE, LIGHT, NOISE } from "./glsl";
import { LOOK } from "./look_shaders";

export const SHEET_VERTEX = /* glsl */ `
varying vec3 vLocal;
varying vec3 vWorld;
varying vec3 vFlat;
varying vec2 vUv;
void main() {
  vec4 world = modelMatrix * vec4(position, 1.0);
  vLocal = position;
  vWorld = world.xyz;
  vFlat = normal;
  vUv = uv;
  gl_Position = projectionMatrix * viewMatrix * world;
}
`;

export const SHEET_FRAGMENT = /* glsl */ `
uniform sampler2D picture;
uniform vec3 canvasColour;
// The opening between the bars (left, bottom, right, top) and how deep it is, mm.
uniform vec4 opening;
uniform float openingDeep;
varying vec3 vLocal;
varying vec3 vWorld;
varying vec3 vFlat;
varying vec2 vUv;
${LIGHT}
${ENCODE}
${LOOK}

// The share of the sky that a wall of height h hides from a point at distance d beside it:
// the view factor of a long upright strip, (1 - d / sqrt(d^2 + h^2)) / 2.
float hidden(float d, float h) {
  return 0.5 - 0.5 * d / sqrt(d * d + h * h);
}

void main() {
  vec3 n = gl_FrontFacing ? vFlat : -vFlat;
  // Looked up on both sides of the sheet, for the slopes that filtering needs; the raw back is never printed.
  vec3 printed = looked(texture2D(picture, vUv).rgb, vUv);
  vec3 colour = gl_FrontFacing ? printed : canvasColour;
  float key = 1.0;
  float sky = 1.0;
  vec4 inside = vec4(vLocal.xy - opening.xy, opening.zw - vLocal.xy);
  if (gl_FrontFacing || n.z > -0.9) {
    // A side is darker where it comes near the wall.
    sky -= 0.42 * (1.0 - abs(n.z)) * exp(-max(vWorld.z, 0.0) / 0.011);
  } else if (min(min(inside.x, inside.y), min(inside.z, inside.w)) > -opening.x) {
    // The back of the face, at the bottom of the opening between the bars, or under the bars themselves
    // (the opening begins one bar's width in from the face's corner).
    vec4 room = max(inside, 0.0);
    sky -= hidden(room.x, openingDeep) + hidden(room.y, openingDeep)
      + hidden(room.z, openingDeep) + hidden(room.w, openingDeep);
    // The bars towards the light throw a shadow: a ray to it has this height where it meets them.
    vec2 height = room.zw * keyDirection.z / vec2(-keyDirection.x, keyDirection.y);
    vec2 free = smoothstep(vec2(-0.35), vec2(0.45), height / openingDeep - 1.0);
    key = free.x * free.y;
    // Pale wood and canvas throw some of the light back.
    sky = max(sky, 0.0) * 0.8 + 0.2;
    colour *= mix(vec3(0.96, 0.9, 0.82), vec3(1.0), 0.4 + 0.6 * key);
  }
  vec3 encoded = encode(colour * roomLight(n, key, sky));
  // The printed side is never dithered: its colours are what the texture says.
  gl_FragColor = vec4(gl_FrontFacing ? encoded : dithered(encoded), 1.0);
}
`;

export const WOOD_VERTEX = /* glsl */ `
attribute vec3 grain;
varying vec3 vFlat;
varying vec3 vGrain;
varying vec3 vWorld;
void main() {
  vec4 world = modelMatrix * vec4(position, 1.0);
  vWorld = world.xyz;
  vFlat = normal;
  vGrain = grain;
  gl_Position = projectionMatrix * viewMatrix * world;
}
`;

export const WOOD_FRAGMENT = /* glsl */ `
uniform vec3 woodColour;
varying vec3 vFlat;
varying vec3 vGrain;
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
  gl_FragColor = vec4(dithered(encode(colour * roomLight(normalize(vFlat), 1.0, 1.0))), 1.0);
}
`;
