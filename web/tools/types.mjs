// Writes src/contract/types.ts from src/contract/contract.schema.json.
// With --check it writes nothing and fails when the file is not what the schema gives.
import { readFile, writeFile } from "node:fs/promises";
import process from "node:process";
import { compile } from "json-schema-to-typescript";

const schemaFile = new URL("../src/contract/contract.schema.json", import.meta.url);
const typesFile = new URL("../src/contract/types.ts", import.meta.url);

const banner = `// Generated from the Python models that pycore/bridge/messages.py brings together; do not edit.
// After a change there: python -m pycore.bridge.schema, then npm run types.
// One long file, because it is one contract and nobody writes it by hand.`;

/** Drop the lines that say only where in the schema a type stands, and the comments left empty by that. */
function withoutSchemaTalk(text) {
  return text
    .replace(/\n \* This interface was referenced by `Contract`'s JSON-Schema\n \* via the `definition` "\w+"\./g, "")
    .replace(/^ *\* @(min|max)Items \d+\n/gm, "")
    .replace(/(\n *\*)+(?=\n *\*\/)/g, "")
    .replace(/^ *\/\*\*\n *\*\/\n/gm, "")
    .replace(/^( *)\/\*\*\n *\* (.*)\n *\*\/$/gm, "$1/** $2 */");
}

const schema = JSON.parse(await readFile(schemaFile, "utf8"));
const types = withoutSchemaTalk(
  await compile(schema, schema.title, {
    bannerComment: banner,
    additionalProperties: false,
    style: { printWidth: 110 },
    unreachableDefinitions: true,
  }),
);

if (process.argv.includes("--check")) {
  const committed = await readFile(typesFile, "utf8");
  if (committed !== types) {
    console.error("src/contract/types.ts differs from contract.schema.json; run: npm run types");
    process.exit(1);
  }
} else {
  await writeFile(typesFile, types);
}
