/** Pieces of shader text that the stage's materials share. Colours inside are linear; only the end encodes. */

/** A corner where it stands in the room; what lights it takes the place, metres, from `vWorld`. */
export const PLACE = /* glsl */ `
varying vec3 vWorld;

vec4 placed() {
  vec4 world = modelMatrix * vec4(position, 1.0);
  vWorld = world.xyz;
  return projectionMatrix * viewMatrix * world;
}
`;

/** Of solids whose facets each have a tone of their own. */
export const TONED_VERTEX = /* glsl */ `
attribute float tone;
varying float vTone;
varying vec3 vFlat;
${PLACE}
void main() {
  vFlat = normal;
  vTone = tone;
  gl_Position = placed();
}
`;

/** The room's light; `key` and `sky` say how much of each arrives. Mirrors `light.ts`. */
export const LIGHT = /* glsl */ `
uniform vec3 keyDirection;
uniform vec3 keyColour;
uniform vec3 skyColour;

vec3 roomLight(vec3 n, float key, float sky) {
  float lit = max(dot(n, keyDirection), 0.0);
  // What shows its back has been turned round to be looked at: the same light falls on it, mirrored.
  vec3 mirrored = keyDirection * vec3(-1.0, 1.0, -1.0);
  float turned = max(dot(n, mirrored), 0.0) * clamp(-n.z, 0.0, 1.0);
  // A little more sky from above than from below; none of either for the upright face.
  float dome = 1.0 + 0.16 * n.y;
  vec3 light = keyColour * (lit + 0.82 * turned) * key + skyColour * dome * sky;
  // What faces the key more squarely than the face does is held back, so that no printed colour glares.
  return min(light, 1.0) + 0.35 * max(light - 1.0, 0.0);
}
`;

/** The transfer function of sRGB (IEC 61966-2-1), and a dither against bands in smooth walls. */
export const ENCODE = /* glsl */ `
vec3 encode(vec3 linear) {
  vec3 c = clamp(linear, 0.0, 1.0);
  return mix(c * 12.92, 1.055 * pow(c, vec3(1.0 / 2.4)) - 0.055, step(0.0031308, c));
}

vec3 dithered(vec3 encoded) {
  float noise = fract(52.9829189 * fract(dot(gl_FragCoord.xy, vec2(0.06711056, 0.00583715))));
  return encoded + (noise - 0.5) / 255.0;
}
`;

/** What lies behind everything: the wall's colour, lost in the distance. */
export const BACKDROP = /* glsl */ `
uniform vec3 backdropColour;
uniform vec4 paneBox;

vec3 backdrop() {
  vec2 p = (gl_FragCoord.xy - paneBox.xy) / paneBox.zw - vec2(0.42, 0.62);
  return backdropColour * (1.04 - 0.34 * dot(p, p));
}
`;

/** Smooth noise for the grain of wood. */
export const NOISE = /* glsl */ `
float hash(vec2 p) {
  vec3 q = fract(p.xyx * 0.1031);
  q += dot(q, q.yzx + 33.33);
  return fract((q.x + q.y) * q.z);
}

float noise(vec2 p) {
  vec2 i = floor(p);
  vec2 f = p - i;
  f = f * f * (3.0 - 2.0 * f);
  return mix(
    mix(hash(i), hash(i + vec2(1.0, 0.0)), f.x),
    mix(hash(i + vec2(0.0, 1.0)), hash(i + vec2(1.0, 1.0)), f.x),
    f.y);
}
`;
