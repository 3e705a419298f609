/** Shaders of the objects beside the piece: solids, a person's outline, and soft shadows. */

import { BACKDROP, ENCODE, LIGHT, PLACE } from "../drawing/glsl";

export const SOLID_FRAGMENT = /* glsl */ `
uniform vec3 besideColour;
uniform float falloff;
uniform float wallShown;
varying float vTone;
varying vec3 vFlat;
varying vec3 vWorld;
${LIGHT}
${ENCODE}
${BACKDROP}
void main() {
  vec3 light = roomLight(normalize(vFlat), 1.0, 0.82 + 0.18 * smoothstep(0.0, 0.6, vWorld.y));
  vec3 colour = besideColour * vTone * light * (1.0 - 0.5 * falloff);
  gl_FragColor = vec4(dithered(encode(mix(backdrop(), colour, wallShown))), 1.0);
}
`;

/** Signed distance to the outline of a person standing upright, metres; feet at y = 0, 1.7 m tall. */
const OUTLINE = /* glsl */ `
float limb(vec2 p, vec2 a, vec2 b, float ra, float rb) {
  vec2 span = b - a;
  float t = clamp(dot(p - a, span) / dot(span, span), 0.0, 1.0);
  return length(p - a - span * t) - mix(ra, rb, t);
}

float joined(float a, float b, float k) {
  float h = max(k - abs(a - b), 0.0) / k;
  return min(a, b) - h * h * k * 0.25;
}

float outline(vec2 p) {
  p.x = abs(p.x);
  vec2 head = (p - vec2(0.0, 1.583)) / vec2(0.078, 0.117);
  float d = (length(head) - 1.0) * 0.078;
  d = joined(d, limb(p, vec2(0.0, 1.42), vec2(0.0, 1.5), 0.056, 0.05), 0.03);
  float body = limb(p, vec2(0.0, 1.36), vec2(0.135, 1.355), 0.07, 0.056);
  body = joined(body, limb(p, vec2(0.055, 1.32), vec2(0.05, 1.06), 0.1, 0.085), 0.05);
  body = joined(body, limb(p, vec2(0.05, 1.06), vec2(0.07, 0.9), 0.085, 0.088), 0.08);
  float leg = limb(p, vec2(0.08, 0.88), vec2(0.09, 0.48), 0.08, 0.054);
  leg = joined(leg, limb(p, vec2(0.09, 0.48), vec2(0.092, 0.07), 0.055, 0.036), 0.06);
  leg = joined(leg, limb(p, vec2(0.1, 0.022), vec2(0.125, 0.02), 0.024, 0.02), 0.04);
  float arm = limb(p, vec2(0.178, 1.345), vec2(0.218, 1.08), 0.05, 0.038);
  arm = joined(arm, limb(p, vec2(0.218, 1.08), vec2(0.232, 0.84), 0.038, 0.028), 0.03);
  arm = joined(arm, limb(p, vec2(0.232, 0.83), vec2(0.23, 0.76), 0.034, 0.026), 0.03);
  d = joined(d, body, 0.03);
  d = joined(d, leg, 0.09);
  return joined(d, arm, 0.025);
}
`;

export const OUTLINE_VERTEX = /* glsl */ `
varying vec2 vAt;
${PLACE}
void main() {
  // The quad's corners carry the place in the outline's own frame.
  vAt = uv;
  gl_Position = placed();
}
`;

export const OUTLINE_FRAGMENT = /* glsl */ `
uniform vec3 besideColour;
uniform float falloff;
uniform float wallShown;
varying vec2 vAt;
varying vec3 vWorld;
${LIGHT}
${ENCODE}
${BACKDROP}
${OUTLINE}
void main() {
  float d = outline(vAt);
  float shown = smoothstep(0.5, -0.5, d / max(fwidth(d), 1e-5));
  if (shown < 0.004) discard;
  vec3 light = roomLight(vec3(0.0, 0.0, 1.0), 1.0, 0.85 + 0.15 * smoothstep(0.0, 0.8, vWorld.y));
  vec3 colour = besideColour * light * (1.0 - 0.5 * falloff);
  gl_FragColor = vec4(dithered(encode(mix(backdrop(), colour, wallShown))), shown);
}
`;

/** What multiplies the picture behind: the outline's shadow on the wall, blurred by its distance. */
export const OUTLINE_SHADOW_FRAGMENT = /* glsl */ `
uniform float wallShown;
varying vec2 vAt;
${OUTLINE}
void main() {
  float d = outline(vAt);
  float dark = 0.26 * wallShown * smoothstep(0.09, -0.07, d);
  if (dark < 0.003) discard;
  gl_FragColor = vec4(vec3(1.0 - dark), 1.0);
}
`;

export const SOFT_VERTEX = /* glsl */ `
// The middle of this corner's rectangle is 0; half its size, how soft it is, and how dark.
attribute vec2 off;
attribute vec4 rectangle;
varying vec2 vOff;
varying vec4 vRectangle;
void main() {
  vOff = off;
  vRectangle = rectangle;
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
}
`;

export const SOFT_FRAGMENT = /* glsl */ `
uniform float wallShown;
varying vec2 vOff;
varying vec4 vRectangle;
void main() {
  // A blurred edge as a smooth step; a rectangle is the product of its two bands.
  vec2 high = smoothstep(-vec2(vRectangle.z), vec2(vRectangle.z), vRectangle.xy - vOff);
  vec2 low = smoothstep(-vec2(vRectangle.z), vec2(vRectangle.z), vRectangle.xy + vOff);
  float dark = vRectangle.w * wallShown * high.x * high.y * low.x * low.y;
  if (dark < 0.003) discard;
  gl_FragColor = vec4(vec3(1.0 - dark), 1.0);
}
`;
