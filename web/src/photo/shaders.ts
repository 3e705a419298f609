/** The two programs of a piece on a photographed wall: the canvas in the room's light, and its shadow on the wall. */

/** From mm on the wall to the drawing. */
const SEEN = `#version 300 es
precision highp float;
uniform vec4 camera[3];
uniform vec2 photo;
uniform vec2 at;
vec4 seen(vec3 place) {
  vec3 p = vec3(dot(camera[0], vec4(place, 1.0)), dot(camera[1], vec4(place, 1.0)), dot(camera[2], vec4(place, 1.0)));
  // Near and far as shares of the distance to the reference.
  float near = 0.02, far = 60.0;
  float z = p.z * (far + near) / (far - near) - 2.0 * far * near / (far - near);
  return vec4(2.0 * p.x / photo.x - p.z, p.z - 2.0 * p.y / photo.y, z, p.z);
}
`;

const FRAGMENT = `#version 300 es
precision highp float;
uniform sampler2D inFront;
uniform vec2 drawing;
out vec4 colour;
float bare() {
  vec2 place = gl_FragCoord.xy / drawing;
  return 1.0 - texture(inFront, vec2(place.x, 1.0 - place.y)).a;
}
`;

export const CANVAS_VERTEX = `${SEEN}
in vec3 position;
in vec3 normal;
in vec2 uv;
out vec2 spot;
out vec2 wall;
out vec3 facing;
void main() {
  vec3 place = position + vec3(at, 0.0);
  spot = uv;
  wall = place.xy;
  facing = normal;
  gl_Position = seen(place);
}
`;

/** A side keeps so much of its light when it faces away from the light, and when it faces it. */
export const CANVAS_FRAGMENT = `${FRAGMENT}
uniform sampler2D canvas;
uniform vec3 white;
uniform vec2 middle;
uniform vec2 fall;
uniform float limit;
uniform float amount;
uniform vec2 light;
in vec2 spot;
in vec2 wall;
in vec3 facing;
vec3 encode(vec3 linear) {
  vec3 low = linear * 12.92;
  vec3 high = 1.055 * pow(max(linear, vec3(0.0031308)), vec3(1.0 / 2.4)) - 0.055;
  return mix(high, low, vec3(lessThanEqual(linear, vec3(0.0031308))));
}
void main() {
  vec3 out_of = normalize(facing);
  float share = out_of.z > 0.5 ? 1.0 : mix(0.55, 1.0, (1.0 + dot(out_of.xy, light)) / 2.0);
  float slope = clamp(dot(fall, wall - middle), -limit, limit);
  vec3 gain = exp(amount * (slope + log(max(white, vec3(1e-3)))));
  vec3 seen = clamp(texture(canvas, spot).rgb * gain * share, 0.0, 1.0);
  float alpha = bare();
  colour = vec4(encode(seen) * alpha, alpha);
}
`;

export const SHADOW_VERTEX = `${SEEN}
in vec2 corner;
uniform vec2 size;
uniform float reach;
out vec2 off;
void main() {
  off = corner * (size / 2.0 + reach);
  gl_Position = seen(vec3(at + off, 0.0));
}
`;

/** The share of the light that the box keeps from a place: a wide patch of windows and walls, as in the core. */
export const SHADOW_FRAGMENT = `${FRAGMENT}
uniform vec2 size;
uniform float depth;
uniform float strength;
uniform vec2 light;
in vec2 off;
const int RAYS = 24;
vec2 inside(float place, float slope, float half_size) {
  float s = abs(slope) < 1e-6 ? 1e-6 : slope;
  float one = (-half_size - place) / s, other = (half_size - place) / s;
  return vec2(min(one, other), max(one, other));
}
void main() {
  float total = 0.0;
  for (int ray = 0; ray < RAYS; ray++) {
    float number = float(ray) + 0.5;
    float far = sqrt(number / float(RAYS)) * 0.8, turn = number * 3.14159265 * (3.0 - sqrt(5.0));
    vec2 slope = 0.55 * light + far * vec2(cos(turn), sin(turn));
    vec2 x = inside(off.x, slope.x, size.x / 2.0), y = inside(off.y, slope.y, size.y / 2.0);
    float begin = max(max(x.x, y.x), 0.0);
    if (begin <= min(min(x.y, y.y), depth)) total += 1.0;
  }
  float kept = 1.0 - strength * 0.6 * total / float(RAYS);
  // In linear light the wall's colour is multiplied; on its encoded values that is nearly this.
  float alpha = (1.0 - pow(kept, 1.0 / 2.3)) * bare();
  colour = vec4(0.0, 0.0, 0.0, alpha);
}
`;

/** How far beyond a box its shadow reaches, for each mm of its depth. */
export const SHADOW_REACH = 1.35;
