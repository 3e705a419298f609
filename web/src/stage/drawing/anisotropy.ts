/** How finely a texture that is seen aslant is filtered. */

/** Samples along the slant; more are not told from these on woven canvas. */
const MOST = 4;

/** What programs call themselves that draw without a graphics card. */
const SOFTWARE = /llvmpipe|softpipe|swiftshader|software|basic render/iu;

/** A name that hides the renderer's own. */
const MASK = /^webkit/iu;

/**
 * The anisotropy that suits a context, 1 for none.
 *
 * Without a graphics card each sample is paid for, and Mesa's llvmpipe may filter one slanted pixel over a whole
 * picture: some views kept it at work without end.
 */
export function anisotropyFor(context: WebGL2RenderingContext): number {
  if (SOFTWARE.test(rendererName(context))) return 1;
  const filter = context.getExtension("EXT_texture_filter_anisotropic");
  if (filter === null) return 1;
  return Math.min(MOST, Number(context.getParameter(filter.MAX_TEXTURE_MAX_ANISOTROPY_EXT)));
}

function rendererName(context: WebGL2RenderingContext): string {
  const name = String(context.getParameter(context.RENDERER));
  if (!MASK.test(name)) return name;
  const unmasked = context.getExtension("WEBGL_debug_renderer_info");
  return unmasked === null ? name : String(context.getParameter(unmasked.UNMASKED_RENDERER_WEBGL));
}
