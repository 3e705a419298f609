import { describe, expect, it } from "vitest";
import { fileName, keepPicture, NO_PICTURE, pictureWith, stem } from "../../../../../web/src/page/state/work/pictures";

describe("files", () => {
  it("are named as any disk takes it", () => {
    expect(fileName("The Ebbing Field, Merrowmouth")).toBe("The Ebbing Field, Merrowmouth");
    expect(fileName('a/b\\c:d*"?')).toBe("a-b-c-d-");
    expect(fileName("..hidden")).toBe("hidden");
    expect(fileName("   ")).toBe("canvas");
    expect(fileName("x".repeat(300)).length).toBe(80);
  });

  it("lend their name to the job without the ending", () => {
    expect(stem("low tide.final.jpg")).toBe("low tide.final");
    expect(stem(".jpg")).toBe(".jpg");
  });
});

describe("pictures", () => {
  it("are known again by their content", () => {
    const blob = new Blob(["x"]);
    const first = keepPicture({ name: "dune.png", blob, sha256: "aa" });
    expect(keepPicture({ name: "dune.png", blob, sha256: "aa" })).toBe(first);
    expect(keepPicture({ name: "dune.png", blob, sha256: "bb" })).not.toBe(first);
    expect(pictureWith("aa")).toBe(first);
    expect(pictureWith("cc")).toBe(NO_PICTURE);
    expect(pictureWith("")).toBe(NO_PICTURE);
  });
});
