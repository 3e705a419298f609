// node tools/pack.mjs OUT FILE...: write each file packed by Brotli and by gzip, as tightly as both can, to the folder OUT
// under the file's own name with .br and .gz. The bytes are the same each time.
import { readFile, writeFile } from "node:fs/promises";
import { basename, join } from "node:path";
import process from "node:process";
import { promisify } from "node:util";
import { brotliCompress, constants, gzip } from "node:zlib";

const [out, ...files] = process.argv.slice(2);
const brotli = promisify(brotliCompress);
const zip = promisify(gzip);

/** 2^24 bytes, the largest window that browsers take. */
const WINDOW_BITS = 24;

// The largest come first; two at a time, one core each.
const waiting = [...files];
async function work() {
  for (let file = waiting.shift(); file !== undefined; file = waiting.shift()) {
    const data = await readFile(file);
    const params = {
      [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY,
      [constants.BROTLI_PARAM_LGWIN]: WINDOW_BITS,
      [constants.BROTLI_PARAM_SIZE_HINT]: data.length,
    };
    await writeFile(join(out, `${basename(file)}.br`), await brotli(data, { params }));
    await writeFile(join(out, `${basename(file)}.gz`), await zip(data, { level: constants.Z_BEST_COMPRESSION }));
  }
}
await Promise.all([work(), work()]);
