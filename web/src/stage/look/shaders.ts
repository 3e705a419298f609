/** How a fragment of the sheet takes its colour through a look; mirrors `pixels.ts`. */

/** The pale picture behind the clip map and behind a highlighted hue group: encoded grey = low + span x luma. */
export const PALE = { low: 150 / 255, span: 100 / 255 } as const;
/** Luma of encoded values is enough for a backdrop; weights of Rec. ITU-R BT.709. */
export const LUMA = [0.2126, 0.7152, 0.0722] as const;

const number = (value: number): string => value.toFixed(6);

export const LOOK = /* glsl */ `
// 0 as it is, 1 through the table, 2 the clip map.
uniform int lookMode;
uniform sampler3D lookTable;
uniform sampler2D lookCurve;
uniform float lookNodes;
uniform float clipFullDe;
uniform float thresholdDe;
uniform sampler2D clipScale;
uniform float scaleSteps;
uniform float scaleFullDe;
// The inked part of the texture: left, top, right, bottom.
uniform vec4 inked;
uniform sampler2D hueMask;
uniform bool lit;

vec3 decode(vec3 c) {
  return mix(c / 12.92, pow((c + 0.055) / 1.055, vec3(2.4)), step(0.04045, c));
}

// Where encoded values lie among the nodes: between two bytes along a straight line.
vec3 places(vec3 encoded) {
  vec3 bytes = clamp(encoded, 0.0, 1.0) * 255.0;
  vec3 low = min(floor(bytes), 254.0);
  ivec3 at = ivec3(low);
  vec3 here = vec3(
    texelFetch(lookCurve, ivec2(at.r, 0), 0).r,
    texelFetch(lookCurve, ivec2(at.g, 0), 0).g,
    texelFetch(lookCurve, ivec2(at.b, 0), 0).b
  );
  vec3 next = vec3(
    texelFetch(lookCurve, ivec2(at.r + 1, 0), 0).r,
    texelFetch(lookCurve, ivec2(at.g + 1, 0), 0).g,
    texelFetch(lookCurve, ivec2(at.b + 1, 0), 0).b
  );
  return mix(here, next, bytes - low);
}

// From a cell's first node to its last, along its edges in falling order of the fractions (Sakamoto 1981).
vec4 throughTable(vec3 encoded) {
  vec3 place = places(encoded);
  vec3 cell = min(floor(place), lookNodes - 2.0);
  vec3 part = place - cell;
  ivec3 node = ivec3(cell);
  float most = max(max(part.r, part.g), part.b);
  float least = min(min(part.r, part.g), part.b);
  float middle = max(min(part.r, part.g), min(max(part.r, part.g), part.b));
  bool redFirst = part.r >= part.g && part.r >= part.b;
  bool blueLast = part.b <= part.r && part.b <= part.g;
  ivec3 first = redFirst ? ivec3(1, 0, 0) : part.g >= part.b ? ivec3(0, 1, 0) : ivec3(0, 0, 1);
  ivec3 last = blueLast ? ivec3(0, 0, 1) : part.g <= part.r ? ivec3(0, 1, 0) : ivec3(1, 0, 0);
  return texelFetch(lookTable, node, 0) * (1.0 - most)
    + texelFetch(lookTable, node + first, 0) * (most - middle)
    + texelFetch(lookTable, node + 1 - last, 0) * (middle - least)
    + texelFetch(lookTable, node + 1, 0) * least;
}

vec3 pale(vec3 encoded) {
  float luma = dot(encoded, vec3(${LUMA.map(number).join(", ")}));
  return vec3(${number(PALE.low)} + ${number(PALE.span)} * luma);
}

// The difference as eight bits have it, so that the map is the core's to the pixel.
vec3 clipMap(vec3 quiet, float alpha, vec2 at) {
  float lost = floor(alpha * 255.0 + 0.5) * clipFullDe / 255.0;
  // Bare canvas is not printed, so it cannot clip.
  bool bare = any(lessThan(at, inked.xy)) || any(greaterThan(at, inked.zw));
  if (bare || lost <= thresholdDe) return quiet;
  float place = floor(min(lost / scaleFullDe, 1.0) * (scaleSteps - 1.0) + 0.5);
  return texelFetch(clipScale, ivec2(int(place), 0), 0).rgb;
}

// Everything else recedes to the pale picture; the group keeps its colours within a dark line with a light rim.
vec3 lightUp(vec3 shown, vec3 quiet, vec2 at) {
  float member = texture2D(hueMask, at).r;
  // Some levels coarser: a line round what holds together, not round every speck.
  float field = texture2D(hueMask, at, 3.0).r;
  float steep = fwidth(field);
  float off = abs(field - 0.4) / max(steep, 0.001);
  float drawn = smoothstep(0.006, 0.02, steep);
  vec3 painted = mix(quiet, shown, smoothstep(0.3, 0.7, member));
  painted = mix(painted, vec3(1.0, 0.99, 0.96), 0.8 * drawn * (1.0 - smoothstep(1.5, 2.4, off)));
  return mix(painted, vec3(0.11, 0.09, 0.08), 0.92 * drawn * (1.0 - smoothstep(0.35, 1.15, off)));
}

// The texture arrives decoded as sRGB, so that it is filtered in light; encoding it again gives the file's values.
// Bare canvas is white in the texture, and takes the way through the table that every white takes: a print's
// paper-white parts and the unprinted rest of the same canvas must look alike.
vec3 looked(vec3 picture, vec2 at) {
  // A shallower variant shares a deeper one's texture, whose ink runs on where its own has ended.
  vec4 within = vec4(at - inked.xy, inked.zw - at) / max(fwidth(at), 1e-9).xyxy;
  float ink = clamp(min(min(within.x, within.y), min(within.z, within.w)) + 1.0, 0.0, 1.0);
  vec3 linear = mix(vec3(1.0), picture, ink);
  if (lookMode == 0 && !lit) return linear;
  vec3 shown = encode(linear);
  float alpha = 0.0;
  if (lookMode != 0) {
    vec4 seen = throughTable(shown);
    shown = clamp(seen.rgb, 0.0, 1.0);
    alpha = clamp(seen.a, 0.0, 1.0);
  }
  vec3 quiet = pale(shown);
  if (lookMode == 2) shown = clipMap(quiet, alpha, at);
  return decode(lit ? lightUp(shown, quiet, at) : shown);
}
`;
