/** How the solid, its marks and its lines are drawn. All colours here are encoded: nothing is lit. */

export const GROUND_VERTEX = /* glsl */ `
void main() {
  gl_Position = vec4(position.xy, 0.9999, 1.0);
}
`;

export const GROUND_FRAGMENT = /* glsl */ `
uniform vec3 ground;
void main() {
  gl_FragColor = vec4(ground, 1.0);
}
`;

export const SURFACE_VERTEX = /* glsl */ `
attribute vec3 colour;
attribute float lightness;
varying vec3 vColour;
varying vec3 vNormal;
varying vec3 vToEye;
varying float vLightness;
void main() {
  vec4 seen = modelViewMatrix * vec4(position, 1.0);
  vColour = colour;
  vNormal = normalMatrix * normal;
  vToEye = -seen.xyz;
  vLightness = lightness;
  gl_Position = projectionMatrix * seen;
}
`;

/** A thin glass: clear where it is seen squarely, dense at its rim, with a fine line every 10 of L*. */
export const SURFACE_FRAGMENT = /* glsl */ `
uniform float clearness;
varying vec3 vColour;
varying vec3 vNormal;
varying vec3 vToEye;
varying float vLightness;
void main() {
  float square = abs(dot(normalize(vNormal), normalize(vToEye)));
  float rim = pow(1.0 - square, 2.5);
  float off = abs(fract(vLightness / 10.0 + 0.5) - 0.5) * 10.0 / max(fwidth(vLightness), 1e-4);
  float line = (1.0 - smoothstep(0.3, 1.2, off)) * 0.35;
  float alpha = clamp(clearness + 0.5 * rim + line, 0.0, 0.95);
  gl_FragColor = vec4(vColour * (1.0 - 0.45 * line), alpha);
}
`;

/** A mark is a dot inside, and outside a diamond with a rim that grows with what is lost. */
export const MARK_VERTEX = /* glsl */ `
attribute vec3 centre;
attribute vec3 colour;
attribute float share;
attribute float difference;
uniform float thresholdDe;
uniform vec2 viewport;
uniform float pixelRatio;
varying vec3 vColour;
varying vec2 vPlace;
varying float vRadius;
varying float vOutside;
void main() {
  vOutside = difference > thresholdDe ? 1.0 : 0.0;
  float dot_px = 1.0 + 34.0 * sqrt(share);
  float diamond_px = 2.6 + 0.32 * min(difference, 20.0) + 20.0 * sqrt(share);
  vRadius = min(vOutside > 0.5 ? diamond_px : dot_px, 14.0) * pixelRatio;
  vPlace = position.xy * (vRadius + pixelRatio);
  vColour = colour;
  vec4 c = projectionMatrix * modelViewMatrix * vec4(centre, 1.0);
  c.xy += vPlace * 2.0 / viewport * c.w;
  gl_Position = c;
}
`;

export const MARK_FRAGMENT = /* glsl */ `
uniform vec3 darkRim;
uniform vec3 paleRim;
uniform float pixelRatio;
varying vec3 vColour;
varying vec2 vPlace;
varying float vRadius;
varying float vOutside;
void main() {
  // Pixels inward from the mark's rim.
  float inward = vOutside > 0.5
    ? (vRadius - abs(vPlace.x) - abs(vPlace.y)) * 0.7071
    : vRadius - length(vPlace);
  float cover = clamp(inward + 0.5, 0.0, 1.0);
  if (cover < 0.02) discard;
  // A rim that stands out from the colour within; where that is pale or dark, it stands out from the ground itself.
  vec3 contrast = dot(vColour, vec3(0.2126, 0.7152, 0.0722)) > 0.42 ? darkRim : paleRim;
  vec3 rim = mix(contrast, vColour, clamp(inward - 0.8 * pixelRatio + 0.5, 0.0, 1.0));
  gl_FragColor = vec4(vOutside > 0.5 ? rim : vColour, cover);
}
`;

/** A straight line of a width in pixels. */
export const LINE_VERTEX = /* glsl */ `
attribute vec3 start;
attribute vec3 finish;
attribute float strength;
// What the colour at its start is lost by; lines that belong to none are always drawn.
attribute float difference;
uniform float thresholdDe;
uniform vec2 viewport;
uniform float pixelRatio;
uniform float widthPx;
varying float vAcross;
varying float vStrength;
void main() {
  vec4 a = projectionMatrix * modelViewMatrix * vec4(start, 1.0);
  vec4 b = projectionMatrix * modelViewMatrix * vec4(finish, 1.0);
  vec2 direction = (b.xy / b.w - a.xy / a.w) * viewport;
  direction = direction / max(length(direction), 1e-4);
  float reach = (widthPx * 0.5 + 0.8) * pixelRatio;
  vec4 c = position.x > 0.5 ? b : a;
  c.xy += vec2(-direction.y, direction.x) * position.y * reach * 2.0 / viewport * c.w;
  vAcross = position.y * reach;
  vStrength = strength;
  // What is not lost by enough has no line: all its corners fall on one point.
  gl_Position = difference > thresholdDe ? c : vec4(0.0, 0.0, 2.0, 1.0);
}
`;

export const LINE_FRAGMENT = /* glsl */ `
uniform vec3 ink;
uniform float pixelRatio;
uniform float widthPx;
varying float vAcross;
varying float vStrength;
void main() {
  float cover = clamp(widthPx * 0.5 * pixelRatio - abs(vAcross) + 0.5, 0.0, 1.0);
  float alpha = cover * vStrength;
  if (alpha < 0.004) discard;
  gl_FragColor = vec4(ink, alpha);
}
`;
