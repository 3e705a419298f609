/** How the piece is laid on to the wall along the rays of light, and the result smoothed. */

export const VERTEX = /* glsl */ `
attribute vec4 ray;
uniform vec2 centre;
uniform vec2 halfSize;
uniform float rays;
varying vec2 vCarried;
void main() {
  vec4 world = modelMatrix * vec4(position, 1.0);
  vec2 onWall = world.xy - ray.xy * max(world.z, 0.0);
  float depth = 1.0 - 2.0 * (float(gl_InstanceID) + 1.0) / (rays + 1.0);
  vCarried = ray.zw / 255.0;
  gl_Position = vec4((onWall - centre) / halfSize, depth, 1.0);
}
`;

export const FRAGMENT = /* glsl */ `
varying vec2 vCarried;
void main() { gl_FragColor = vec4(vCarried, 0.0, 1.0); }
`;

export const BLUR_VERTEX = /* glsl */ `
varying vec2 vUv;
void main() {
  vUv = position.xy * 0.5 + 0.5;
  gl_Position = vec4(position.xy, 0.0, 1.0);
}
`;

// A small disc of taps, no wider than two neighbouring rays lie apart: it takes the steps between them away.
export const BLUR_FRAGMENT = /* glsl */ `
uniform sampler2D traced;
uniform float texel;
varying vec2 vUv;
void main() {
  vec2 sum = texture2D(traced, vUv).rg;
  for (int i = 0; i < 16; i++) {
    float angle = float(i) * 2.39996323;
    float radius = sqrt((float(i) + 1.5) / 17.0) * 3.6 * texel;
    sum += texture2D(traced, vUv + radius * vec2(cos(angle), sin(angle))).rg;
  }
  gl_FragColor = vec4(sum / 17.0, 0.0, 1.0);
}
`;
