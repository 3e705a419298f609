import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { closeWall, restoreWall } from "../../../../../web/src/page/state/photo/open_wall";
import { newWall, wallImage, wallWork } from "../../../../../web/src/page/state/photo/wall_work";

const wall = (name: string) => newWall({ name, blob: new Blob([name]), px: [40, 30] });

/** An image that is decoded when the test says so. */
function slowImage() {
  const image = { width: 40, height: 30, close: vi.fn<() => void>() };
  let decode = () => {};
  const decoded = new Promise((resolve) => (decode = () => resolve(image)));
  return { image, decoded, decode: () => decode() };
}

describe("a kept wall whose image is decoded late", () => {
  let first = slowImage();
  let second = slowImage();
  beforeEach(() => {
    first = slowImage();
    second = slowImage();
    const images = [first.decoded, second.decoded];
    vi.stubGlobal("createImageBitmap", () => images.shift());
  });
  afterEach(() => {
    closeWall();
    vi.unstubAllGlobals();
  });

  it("takes the place of no other wall, and is let go", async () => {
    const job = { ...wall("first.jpg"), references: [] };
    const other = { ...wall("second.jpg"), references: [] };
    const earlier = restoreWall(job);
    const later = restoreWall(other);
    second.decode();
    await later;
    first.decode();
    await earlier;
    expect(wallWork.value?.photo.name).toBe("second.jpg");
    expect(wallImage.value).toBe(second.image);
    expect(first.image.close).toHaveBeenCalledOnce();
    expect(second.image.close).not.toHaveBeenCalled();
  });

  it("does not come back once the wall was closed", async () => {
    const shown = restoreWall({ ...wall("first.jpg"), references: [] });
    closeWall();
    first.decode();
    await shown;
    expect(wallWork.value).toBeUndefined();
    expect(wallImage.value).toBeUndefined();
  });
});
