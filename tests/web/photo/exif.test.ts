import { expect, it } from "vitest";
import files from "../../data/exif.json";
import { filedFocalPx } from "../../../web/src/photo/exif";

// The file's numbers are the core's own, of JPEGs that Pillow wrote (python -m tests.pycore.wall.write_page_exif).
it.each(files)("reads the focal length of a file as the core does: $name", ({ data, focal_px }) => {
  const found = filedFocalPx(Uint8Array.from(Buffer.from(data, "base64")).buffer, [40, 30]);
  const rounded = (value: number | undefined): string | undefined => value?.toFixed(9);
  expect(rounded(found)).toBe(rounded(focal_px));
});

it("takes nothing of a file that is cut or changed anywhere, and never fails", () => {
  const whole = Uint8Array.from(Buffer.from(files[2]?.data ?? "", "base64"));
  const focal = files[2]?.focal_px;
  for (let at = 0; at < whole.length; at += 1) {
    const found = filedFocalPx(whole.slice(0, at).buffer, [40, 30]);
    expect(found === undefined || found === focal).toBe(true);
    const changed = Uint8Array.from(whole);
    changed[at] = 0xff;
    const other = filedFocalPx(changed.buffer, [40, 30]);
    expect(other === undefined || (Number.isFinite(other) && other > 0)).toBe(true);
  }
});
