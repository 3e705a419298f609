/** Shaders of wall, skirting, floor and backdrop. */

import { BACKDROP, ENCODE, LIGHT, PLACE } from "../drawing/glsl";

/** Height of the skirting board. */
export const SKIRTING_M = 0.09;

export const VERTEX = /* glsl */ `
varying vec3 vFacing;
${PLACE}
void main() {
  vFacing = mat3(modelMatrix) * normal;
  gl_Position = placed();
}
`;

export const BACKDROP_VERTEX = /* glsl */ `
void main() { gl_Position = vec4(position.xy, 1.0, 1.0); }
`;

export const BACKDROP_FRAGMENT = /* glsl */ `
${ENCODE}
${BACKDROP}
void main() { gl_FragColor = vec4(dithered(encode(backdrop())), 1.0); }
`;

export const WALL_FRAGMENT = /* glsl */ `
uniform vec3 wallColour;
uniform float falloff;
uniform float wallShown;
uniform sampler2D shadow;
uniform vec2 shadowCentre;
uniform vec2 shadowHalf;
uniform sampler2D plaster;
varying vec3 vWorld;
${LIGHT}
${ENCODE}
${BACKDROP}
void main() {
  vec2 p = vWorld.xy;
  vec2 q = (p - shadowCentre) / shadowHalf;
  // The shadow's own rim is let out softly, so that its rectangle never shows.
  vec2 rim = smoothstep(vec2(1.0), vec2(0.86), abs(q));
  vec2 shade = texture2D(shadow, q * 0.5 + 0.5).rg * rim.x * rim.y;
  float relief = texture2D(plaster, p / 0.9).r + 0.8 * texture2D(plaster, p.yx / 3.7 + 0.37).r - 0.9;
  // Wall and piece throw some light into each other's shade.
  vec3 light = roomLight(vec3(0.0, 0.0, 1.0), 1.0 - 0.87 * shade.r, 1.0 - 0.8 * shade.g);
  float pool = max(shadowHalf.x, shadowHalf.y) * 1.3;
  float away = length((p - shadowCentre) - keyDirection.xy * 0.4 * pool) / pool;
  light *= 1.0 - falloff * (0.34 * smoothstep(0.1, 1.1, away) + 0.66 * smoothstep(0.2, 3.4, away));
  vec3 colour = wallColour * light * (1.0 + 0.075 * relief);
  // The wall meets floor and skirting in a soft line.
  colour *= 1.0 - 0.2 * exp(-max(p.y - ${SKIRTING_M.toFixed(3)}, 0.0) / 0.03);
  float far = smoothstep(4.0, 12.0, length(p - shadowCentre) / (1.0 + pool * 0.2));
  gl_FragColor = vec4(dithered(encode(mix(backdrop(), colour, wallShown * (1.0 - far)))), 1.0);
}
`;

export const BASE_FRAGMENT = /* glsl */ `
uniform vec3 baseColour;
uniform float falloff;
uniform float wallShown;
uniform vec2 shadowCentre;
varying vec3 vWorld;
varying vec3 vFacing;
${LIGHT}
${ENCODE}
${BACKDROP}
void main() {
  vec3 n = normalize(vFacing);
  // In the corner between wall and floor little sky is seen.
  float corner = 1.0 - 0.45 * exp(-max(vWorld.z, 0.0) / 0.12) * abs(n.y);
  // Boards along the wall, each a little lighter or darker than the next.
  float board = fract(sin(floor(vWorld.z / 0.16) * 12.9898) * 43758.5453) - 0.5;
  vec3 colour = baseColour * roomLight(n, 1.0, corner) * (1.0 + 0.05 * board * step(0.1, vWorld.z));
  // So far below the piece the room is as dim as the wall's far parts.
  colour *= 1.0 - 0.85 * falloff;
  float far = smoothstep(3.0, 11.0, length(vec2(vWorld.x - shadowCentre.x, vWorld.z * 1.6)));
  gl_FragColor = vec4(dithered(encode(mix(backdrop(), colour, wallShown * (1.0 - far)))), 1.0);
}
`;
