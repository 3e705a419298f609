// What the built pages say of themselves: their content security policy, and the hash of each program and style that they
// load. Written into the finished HTML files, for only then are the bytes those that are served.
import { createHash } from "node:crypto";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Plugin } from "vite";

const PAGE = {
  "default-src": ["'none'"],
  // Python is WebAssembly; nothing else is compiled from data.
  "script-src": ["'self'", "'wasm-unsafe-eval'"],
  "style-src": ["'self'"],
  // Pictures that the page makes have addresses of their own.
  "img-src": ["'self'", "blob:"],
  "connect-src": ["'self'"],
  "worker-src": ["'self'"],
  "manifest-src": ["'self'"],
  "base-uri": ["'none'"],
  "form-action": ["'none'"],
  "require-trusted-types-for": ["'script'"],
  // In src/worker/trusted_address.ts.
  "trusted-types": ["tuckfold"],
};

const GUIDE = {
  "default-src": ["'none'"],
  "script-src": ["'self'"],
  "style-src": ["'self'"],
  "img-src": ["'self'"],
  "base-uri": ["'none'"],
  "form-action": ["'none'"],
  "require-trusted-types-for": ["'script'"],
  "trusted-types": ["'none'"],
};

type Policy = Readonly<Record<string, readonly string[]>>;

function hash(data: string | Buffer): string {
  return `sha256-${createHash("sha256").update(data).digest("base64")}`;
}

function text(policy: Policy): string {
  return Object.entries(policy)
    .map(([name, values]) => [name, ...values].join(" "))
    .join("; ");
}

/** Every element that loads a program or a style gets the hash of it. */
function withHashes(html: string, folder: string): string {
  return html.replaceAll(
    /<(script|link)\b[^>]*?\b(?:src|href)="\.\/(assets\/[^"]+\.(?:js|css))"/g,
    (element, _, file: string) => {
      return `${element} integrity="${hash(readFileSync(join(folder, file)))}"`;
    },
  );
}

/** The hashes of the programs that are loaded later, as browsers read them: data, which the policy allows by its own hash. */
function importMap(folder: string): string {
  const programs = readdirSync(join(folder, "assets")).filter((name) => name.endsWith(".js"));
  const hashes: Record<string, string> = {};
  for (const name of programs) hashes[`./assets/${name}`] = hash(readFileSync(join(folder, "assets", name)));
  return JSON.stringify({ integrity: hashes });
}

/** The plugin; it acts where a site is built, not in development. */
export function pagePolicy(): Plugin {
  return {
    name: "page-policy",
    apply: "build",
    writeBundle({ dir }) {
      if (dir === undefined) throw new Error("the site has no folder");
      const map = importMap(dir);
      const page = { ...PAGE, "script-src": [...PAGE["script-src"], `'${hash(map)}'`] };
      write(join(dir, "index.html"), page, `\n    <script type="importmap">${map}</script>`);
      write(join(dir, "guide.html"), GUIDE, "");

      function write(file: string, policy: Policy, more: string): void {
        const html = withHashes(readFileSync(file, "utf8"), dir ?? "");
        const [first, ...rest] = html.split('<meta charset="utf-8" />');
        if (rest.length !== 1) throw new Error(`${file} does not name its character set once`);
        const meta = `<meta charset="utf-8" />\n    <meta http-equiv="Content-Security-Policy" content="${text(policy)}" />`;
        writeFileSync(file, [first, meta, more, ...rest].join(""));
      }
    },
  };
}
