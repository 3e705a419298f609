/** How steel takes the light: a plain grey with a broad highlight. */

import { ENCODE, LIGHT } from "./glsl";

export const FITTING_FRAGMENT = /* glsl */ `
varying float vTone;
varying vec3 vFlat;
varying vec3 vWorld;
${LIGHT}
${ENCODE}
void main() {
  vec3 n = normalize(vFlat);
  vec3 towards = normalize(keyDirection * vec3(-1.0, 1.0, -1.0) + normalize(cameraPosition - vWorld));
  float glint = pow(max(dot(n, towards), 0.0), 24.0);
  vec3 light = roomLight(n, 1.0, 1.0);
  gl_FragColor = vec4(dithered(encode(vec3(0.44, 0.44, 0.45) * vTone * light + 0.35 * glint * light)), 1.0);
}
`;
