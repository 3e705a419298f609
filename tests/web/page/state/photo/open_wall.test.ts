import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import {
  changeReference,
  closeWall,
  openWallInCore,
  openWallPhoto,
  PHOTO,
  restoreWall,
  wallBusy,
} from "../../../../../web/src/page/state/photo/open_wall";
import { fieldErrors } from "../../../../../web/src/page/state/page/fields";
import { changeWall, newWall, wallImage, wallWork } from "../../../../../web/src/page/state/photo/wall_work";
import { roughCorners } from "../../../../../web/src/photo/marked_wall";

const core = vi.hoisted(() => ({
  asked: [] as string[],
  opens: [] as (() => Promise<unknown>)[],
  searches: [] as ((reply: unknown) => void)[],
  restart: [] as (() => void)[],
  forget: [] as (() => void)[],
}));
vi.mock("../../../../../web/src/page/state/core/connection", () => ({
  getCore: () => ({
    call: (method: string, _params: unknown, options?: { readonly signal?: AbortSignal }) => {
      core.asked.push(method);
      if (method === "open_wall" && core.opens.length > 0) return core.opens.shift()?.();
      if (method !== "find_reference") return Promise.resolve({ reply: {}, buffers: [] });
      return new Promise((resolve, reject) => {
        core.searches.push((reply) => resolve({ reply, buffers: [] }));
        options?.signal?.addEventListener("abort", () => reject(new Error("stopped")));
      });
    },
  }),
  onRestart: (listener: () => void) => core.restart.push(listener),
  onForgotten: (listener: () => void) => core.forget.push(listener),
}));

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

describe("a photograph that is chosen while another is read", () => {
  const read = { reply: { file: "first.jpg", photo_px: [40, 30], parts: [], notes: [] }, buffers: [] };
  let image = slowImage();
  beforeEach(() => {
    image = slowImage();
    vi.stubGlobal("createImageBitmap", () => image.decoded);
  });
  afterEach(() => {
    core.asked = [];
    closeWall();
    vi.unstubAllGlobals();
  });

  it("leaves the other its place where it is none itself, and says so", async () => {
    core.opens = [() => Promise.resolve(read), () => Promise.reject(new Error("no photograph"))];
    const first = openWallPhoto(new File(["a"], "first.jpg"), { ...wall("first.jpg"), references: [] });
    await openWallPhoto(new File(["b"], "second.txt"));
    image.decode();
    await first;
    expect(wallWork.value?.photo.name).toBe("first.jpg");
    expect(fieldErrors.value[PHOTO]?.message).toBe("No photograph.");
  });
});

describe("the photograph in the core", () => {
  afterEach(closeWall);

  it("is opened once, and again in every core that takes the place of another", async () => {
    wallWork.value = wall("wall.jpg");
    await openWallInCore();
    await openWallInCore();
    expect(core.asked).toEqual(["open_wall"]);
    // A core has died, and one was let go of.
    for (const listeners of [core.restart, core.forget]) {
      core.asked = [];
      for (const end of listeners) end();
      await openWallInCore();
      expect(core.asked).toEqual(["open_wall"]);
    }
  });
});

describe("the search for a reference", () => {
  afterEach(() => {
    closeWall();
    vi.unstubAllGlobals();
  });

  it("ends with its photograph, and another's goes on being told of", async () => {
    vi.stubGlobal("createImageBitmap", () => Promise.resolve({ width: 40, height: 30, close: () => {} }));
    const first = restoreWall(wall("first.jpg"));
    await vi.waitFor(() => expect(core.searches).toHaveLength(1));
    const second = restoreWall(wall("second.jpg"));
    await vi.waitFor(() => expect(core.searches).toHaveLength(2));
    await first;
    expect(wallBusy.value).toBe("Looking for the reference");
    core.searches[1]?.({ corners: roughCorners([20, 20]), size_mm: [210, 297] });
    await second;
    expect(wallBusy.value).toBe("");
    expect(wallWork.value?.references[0]?.corners).toEqual(roughCorners([20, 20]));
  });
});

describe("the piece on a wall whose reference a hand marks", () => {
  const sheet = (wide: number, high: number) =>
    [
      [4, 5],
      [4 + wide, 5],
      [4 + wide, 5 + high],
      [4, 5 + high],
    ] as const;
  beforeEach(() => (wallWork.value = { ...wall("wall.jpg"), references: [{ size: "a4" }] }));
  afterEach(closeWall);
  const at = () => wallWork.value?.at;

  it("hangs in the middle of it, whichever way it lies, and of another size", () => {
    // Derived: half of 210 x 297 mm (ISO 216), of the same lying, of 8.5 x 11 in, and of 80 x 60 mm.
    changeReference(0, { corners: roughCorners([40, 30]) });
    expect(at()).toEqual([105, 148.5]);
    changeReference(0, { corners: sheet(20, 14) });
    expect(at()).toEqual([148.5, 105]);
    changeReference(0, { corners: sheet(10, 14) });
    expect(at()).toEqual([105, 148.5]);
    changeReference(0, { size: "letter" });
    expect(at()).toEqual([107.95, 139.7]);
    changeReference(0, { size: "80x60" });
    expect(at()).toEqual([40, 30]);
  });

  it("stays where a hand has hung it", () => {
    changeWall({ at: [300, -20] });
    changeReference(0, { corners: sheet(20, 14) });
    expect(at()).toEqual([300, -20]);
  });
});
