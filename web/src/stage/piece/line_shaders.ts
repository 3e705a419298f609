/** How a line lies on the canvas: a ribbon of a width in pixels, drawn with its dashes and its rim. */

import { ENCODE } from "../drawing/glsl";

export const VERTEX = /* glsl */ `
attribute vec3 start;
attribute vec3 finish;
// Whether it is a cut, and its length in mm.
attribute vec2 kind;
uniform vec2 viewport;
uniform float pixelRatio;
varying float vAcross;
varying float vAlong;
varying float vCut;
void main() {
  vec4 a = modelViewMatrix * vec4(start, 1.0);
  vec4 b = modelViewMatrix * vec4(finish, 1.0);
  // Drawn 0.8 mm nearer to the eye than the canvas that they lie on.
  a.xyz *= 1.0 - 0.0008 / length(a.xyz);
  b.xyz *= 1.0 - 0.0008 / length(b.xyz);
  vec4 ca = projectionMatrix * a;
  vec4 cb = projectionMatrix * b;
  vec2 direction = (cb.xy / cb.w - ca.xy / ca.w) * viewport;
  direction = direction / max(length(direction), 1e-4);
  float reach = 3.2 * pixelRatio;
  vec4 c = position.x > 0.5 ? cb : ca;
  c.xy += vec2(-direction.y, direction.x) * position.y * reach * 2.0 / viewport * c.w;
  vAcross = position.y * reach;
  vAlong = position.x * kind.y;
  vCut = kind.x;
  gl_Position = c;
}
`;

export const FRAGMENT = /* glsl */ `
uniform float pixelRatio;
uniform float strength;
uniform float dashMm;
varying float vAcross;
varying float vAlong;
varying float vCut;
${ENCODE}
void main() {
  float across = abs(vAcross) / pixelRatio;
  float half_width = vCut > 0.5 ? 1.15 : 0.62;
  float core = 1.0 - smoothstep(half_width - 0.4, half_width + 0.5, across);
  float rim = 1.0 - smoothstep(half_width + 0.3, half_width + 1.5, across);
  float soft = fwidth(vAlong) * 0.7;
  float phase = mod(vAlong, dashMm) - dashMm * 0.31;
  float dash = vCut > 0.5 ? 1.0 : 1.0 - smoothstep(-soft, soft, abs(phase) - dashMm * 0.31);
  core *= dash;
  float alpha = max(core * 0.88, rim * 0.5) * strength;
  if (alpha < 0.004) discard;
  vec3 ink = mix(vec3(0.93, 0.9, 0.84), vec3(0.022, 0.02, 0.018), core);
  gl_FragColor = vec4(encode(ink), alpha);
}
`;
