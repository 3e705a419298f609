import { expect, it } from "vitest";
import { kindOf, leftSentence, oneOfEach } from "../../../../../web/src/page/state/work/file_kinds";

const file = (name: string, type = "") => new File(["x"], name, { type });
const names = (files: readonly File[]) => files.map(({ name }) => name);

it("knows a file by its name, where it has no type", () => {
  expect(["a.json", "a.ZIP", "a.icm", "a.tif", "notes"].map((name) => kindOf(file(name)))).toEqual([
    "job",
    "job",
    "profile",
    "picture",
    "picture",
  ]);
});

it("opens of several files the job first, then its profile and its picture, and one of each", () => {
  const [picture, other] = [file("tide.jpg", "image/jpeg"), file("dune.jpg", "image/jpeg")];
  const { open, left } = oneOfEach([file("notes.txt"), picture, file("matte.icc"), other, file("tide.json")]);
  expect(names(open)).toEqual(["tide.json", "matte.icc", "tide.jpg"]);
  expect(names(left)).toEqual(["notes.txt", "dune.jpg"]);
  expect(oneOfEach([file("notes.txt")]).left).toEqual([]);
});

it("names the files that are left, or counts them", () => {
  expect(leftSentence(["dune.jpg", "0.5"])).toBe(
    "Not opened: dune.jpg, 0.5. A job has one picture and one canvas profile.",
  );
  expect(leftSentence(["a", "b", "c", "d"])).toBe("Not opened: 4 files. A job has one picture and one canvas profile.");
});
