import { expect, test } from "vitest";
import { anisotropyFor } from "../../../../web/src/stage/drawing/anisotropy";

/** A context as browsers show it: a name, the name behind it, the most that the driver filters. */
function context(name: string, { unmasked = "", most = 16 } = {}): WebGL2RenderingContext {
  const values = new Map<number, unknown>([
    [1, name],
    [2, unmasked],
    [3, most],
  ]);
  const extensions = new Map<string, object>([
    ["EXT_texture_filter_anisotropic", { MAX_TEXTURE_MAX_ANISOTROPY_EXT: 3 }],
  ]);
  if (unmasked !== "") extensions.set("WEBGL_debug_renderer_info", { UNMASKED_RENDERER_WEBGL: 2 });
  const told = {
    RENDERER: 1,
    getParameter: (key: number) => values.get(key),
    getExtension: (key: string) => extensions.get(key) ?? null,
  };
  return told as unknown as WebGL2RenderingContext;
}

// Names as three browsers give them.
test.each([
  ["llvmpipe, or similar", {}],
  [
    "WebKit WebGL",
    { unmasked: "ANGLE (Google, Vulkan 1.3.0 (SwiftShader Device (Subzero) (0x0000C0DE)), SwiftShader driver)" },
  ],
  ["WebKit WebGL", { unmasked: "Microsoft Basic Render Driver" }],
])("a program that draws without a graphics card filters no slant: %s", (name, more) => {
  expect(anisotropyFor(context(name, more))).toBe(1);
});

test.each([
  ["Radeon R9 200 Series, or similar", {}, 4],
  ["WebKit WebGL", { unmasked: "ANGLE (Intel, Mesa Intel(R) UHD Graphics 620 (KBL GT2), OpenGL 4.6)" }, 4],
  ["WebKit WebGL", {}, 4],
  ["Mali-400 MP", { most: 2 }, 2],
])("a graphics card filters as it can, up to four: %s", (name, more, expected) => {
  expect(anisotropyFor(context(name, more))).toBe(expected);
});
