/** Rounding a colour to 8 bits as a whole: to those of the bytes around it that look most alike. */

/**
 * What one level of red, of green and of blue changes at the middle grey: L*, 1.5 times a*, and b*.
 *
 * derived: CIELAB of sRGB 0.5 and of one level more. Beside grey CIEDE2000 counts a* half as much again. Of other
 * colours the lengths differ, but hardly which of the eight is the nearest.
 */
export const LEVEL = [
  [0.088, 0.583, 0.14],
  [0.281, -0.804, 0.405],
  [0.024, 0.223, -0.544],
] as const;

const number = (value: number): string => value.toFixed(3);

// To round each channel by itself turns greys to one side or another: red up and green down is half a step more of
// a*. Of a value that is a byte that byte is the nearest.
export const ROUNDING = /* glsl */ `
const mat3 LEVEL = mat3(${LEVEL.flat().map(number).join(", ")});

void nearer(vec3 up, vec3 part, inout vec3 found, inout float least) {
  vec3 off = LEVEL * (up - part);
  float far = dot(off, off);
  if (far <= least) {
    least = far;
    found = up;
  }
}

vec3 nearestBytes(vec3 encoded) {
  vec3 bytes = clamp(encoded, 0.0, 1.0) * 255.0;
  vec3 low = min(floor(bytes), 254.0);
  vec3 part = bytes - low;
  vec3 found = vec3(0.0);
  vec3 off = LEVEL * part;
  float least = dot(off, off);
  nearer(vec3(1.0, 0.0, 0.0), part, found, least);
  nearer(vec3(0.0, 1.0, 0.0), part, found, least);
  nearer(vec3(0.0, 0.0, 1.0), part, found, least);
  nearer(vec3(0.0, 1.0, 1.0), part, found, least);
  nearer(vec3(1.0, 0.0, 1.0), part, found, least);
  nearer(vec3(1.0, 1.0, 0.0), part, found, least);
  nearer(vec3(1.0), part, found, least);
  return (low + found) / 255.0;
}
`;

/** The products of two channels' levels: what a colour is off by, squared, is a sum of these. */
const product = (one: 0 | 1 | 2, other: 0 | 1 | 2): number =>
  LEVEL[one][0] * LEVEL[other][0] + LEVEL[one][1] * LEVEL[other][1] + LEVEL[one][2] * LEVEL[other][2];
const RED = product(0, 0);
const GREEN = product(1, 1);
const BLUE = product(2, 2);
const RED_GREEN = 2 * product(0, 1);
const RED_BLUE = 2 * product(0, 2);
const GREEN_BLUE = 2 * product(1, 2);

/** Write the bytes that look most like red, green and blue, 0 to 255, at a place of a picture. */
export function putNearestBytes(out: Uint8ClampedArray, at: number, red: number, green: number, blue: number): void {
  const r = held(red);
  const g = held(green);
  const b = held(blue);
  const lowRed = Math.min(Math.floor(r), 254);
  const lowGreen = Math.min(Math.floor(g), 254);
  const lowBlue = Math.min(Math.floor(b), 254);
  let least = Infinity;
  let found = 0;
  for (let up = 0; up < 8; up += 1) {
    const x = (up & 1) - (r - lowRed);
    const y = ((up >> 1) & 1) - (g - lowGreen);
    const z = (up >> 2) - (b - lowBlue);
    const far = x * (RED * x + RED_GREEN * y + RED_BLUE * z) + y * (GREEN * y + GREEN_BLUE * z) + BLUE * z * z;
    if (far <= least) {
      least = far;
      found = up;
    }
  }
  out[at] = lowRed + (found & 1);
  out[at + 1] = lowGreen + ((found >> 1) & 1);
  out[at + 2] = lowBlue + (found >> 2);
}

const held = (value: number): number => Math.min(Math.max(value, 0), 255);
