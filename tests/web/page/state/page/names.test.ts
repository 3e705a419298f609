import { expect, it } from "vitest";
import type { Note, PictureInfo } from "../../../../../web/src/contract/types";
import { conversions } from "../../../../../web/src/page/state/page/names";

const INFO: PictureInfo = {
  file: "tide.jpg",
  format: "JPEG",
  width_px: 640,
  height_px: 427,
  mode: "RGB",
  profile_name: "sRGB",
  profile_assumed: false,
  notes: [],
};

const MISSING: Note = {
  code: "profile-missing",
  severity: "watch",
  place: "picture",
  message: "The picture is CMYK and has no usable profile.",
  remedy: "Export the picture with its profile.",
  field: "picture.file",
  values: {},
};

it("says what a file that keeps the picture's values carries", () => {
  const kept = (info?: PictureInfo): string => conversions(info)[0]?.meaning ?? "";
  expect(kept()).toContain("the picture's profile is embedded");
  expect(kept(INFO)).toContain("the picture's profile is embedded");
  expect(kept({ ...INFO, profile_assumed: true })).toContain("the file says that they are sRGB");
  expect(kept({ ...INFO, mode: "CMYK", notes: [MISSING] })).toContain("none is embedded");
  const leftOut = { ...MISSING, code: "profile-mismatch" };
  expect(kept({ ...INFO, mode: "CMYK", notes: [leftOut] })).toContain("none is embedded");
});
