import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";
import { defineConfig } from "vitest/config";
import { pagePolicy } from "./tools/page_policy.ts";

const web = fileURLToPath(new URL(".", import.meta.url));

/** The tests lie outside of web/, whose packages they use. */
function packagesForTests(): Plugin {
  return {
    name: "packages-for-tests",
    enforce: "pre",
    resolveId(source, importer) {
      const bare = /^[@a-z]/.test(source) && !source.startsWith("node:");
      if (!bare || importer === undefined || importer.startsWith(web)) return null;
      return this.resolve(source, `${web}index.html`, { skipSelf: true });
    },
  };
}

export default defineConfig({
  root: web,
  // Every address in the built site is relative, so that it works under any path.
  base: "./",
  plugins: [packagesForTests(), pagePolicy()],
  // The icons and the manifest. The Python runtime gets its names when the site is put together.
  publicDir: "static",
  build: {
    target: "es2022",
    outDir: "dist",
    emptyOutDir: true,
    chunkSizeWarningLimit: 1500,
    // The guide's drawings stay files of their own: most are far down the page and are loaded late.
    assetsInlineLimit: (file) => (file.includes("/guide/drawings/") ? false : undefined),
    rolldownOptions: {
      input: [`${web}index.html`, `${web}guide.html`, `${web}src/service/service.ts`],
      // How long plugins took is no news to whoever builds the site.
      checks: { bundlerTimings: false },
    },
  },
  // Pyodide asks for these in Node.js only.
  worker: { format: "es", rolldownOptions: { external: [/^node:/] } },
  test: { include: ["../tests/web/**/*.test.{ts,tsx}"], setupFiles: ["../tests/web/browser_globals.ts"] },
});
