import { beforeEach, describe, expect, it, vi } from "vitest";
import type { Offer, OfferedWall } from "../../../web/src/client/offer";
import { hangOnWall } from "../../../web/src/client/own_wall";
import type { PhotoHands, PhotoState } from "../../../web/src/photo/state";
import type { StagePane } from "../../../web/src/stage/types";
import { stripFold } from "../stage/strip_fold";
import { buttonsFor, fakePage } from "./client_page";

interface Opening {
  readonly name: string;
  readonly opened: () => void;
  readonly failed: () => void;
}
const seen = vi.hoisted(() => ({
  hands: undefined as PhotoHands | undefined,
  state: undefined as PhotoState | undefined,
  openings: [] as Opening[],
}));
vi.mock("../../../web/src/photo/view", () => ({
  PhotoView: class {
    constructor(_host: unknown, hands: PhotoHands) {
      seen.hands = hands;
    }
    update(state: PhotoState): void {
      seen.state = state;
    }
  },
}));
vi.mock("../../../web/src/client/own_photo", () => ({
  whiteOf: () => [1, 1, 1],
  openPhoto: (_file: unknown, name: string) =>
    new Promise((resolve, reject) => {
      const image = { width: 1200, height: 900, close: () => {} };
      seen.openings.push({
        name,
        opened: () => resolve({ image, px: [1200, 900], focalPx: 1000 }),
        failed: () => reject(new Error(`${name} is no photograph`)),
      });
    }),
}));

const PANES: readonly StagePane[] = [
  {
    pieces: [
      {
        fold: stripFold,
        sizes: {
          faceWidthMm: 100,
          faceHeightMm: 80,
          depthMm: 20,
          turnoverMm: 25,
        },
        texture: { pixels: new Uint8Array(4), widthPx: 1, heightPx: 1 },
        rows: { topPx: 0, bottomPx: 1 },
        centreMm: [0, 0],
      },
    ],
  },
];
/** Derived: 1 mm of the wall is 1 px of the photograph, seen from 1000 mm. */
const GIVEN: OfferedWall = {
  photo: "data:image/jpeg;base64,",
  px: [1200, 900],
  camera: [
    [1, 0, -0.6, 600],
    [0, -1, -0.45, 450],
    [0, 0, -0.001, 1],
  ],
  light: { white: [1, 1, 1], fall: [0, 0], middleMm: [0, 0], mostFactor: 1 },
  fromDeg: 0,
  atMm: [20, 10],
  isFree: true,
  roomLight: 0.4,
  shadow: 0.1,
  withinMm: [2, 2],
};
const settled = () => new Promise((resolve) => setTimeout(resolve));

describe("a wall in the client's page", () => {
  let page = fakePage();
  let answer: readonly string[] = [];
  const start = (wall?: OfferedWall): void => {
    const offer: Offer = {
      textures: [],
      folds: [],
      surroundings: {} as Offer["surroundings"],
      variants: [],
      ...(wall === undefined ? {} : { wall }),
    };
    hangOnWall(offer, PANES, (lines) => (answer = lines));
  };
  const give = (name: string): Opening => {
    const input = page("own-file");
    input.files = [new File([], name)];
    input.dispatchEvent(new Event("change"));
    const opening = seen.openings.at(-1);
    if (opening === undefined) throw new Error("nothing is opened");
    return opening;
  };
  const wrong = () => page("own-error").textContent;
  const says = () => page("own-says").textContent;
  const take = (tool: string): void => {
    page("own-tool")
      .buttons.find(({ dataset }) => dataset["many"] === tool)
      ?.click();
  };
  const change = (id: string, value: string): void => {
    page(id).value = value;
    page(id).dispatchEvent(new Event("change"));
  };
  /** Derived: a sheet of 210 x 297 mm seen from before it, 1 px each mm. */
  const CORNERS = [
    [300, 200],
    [510, 200],
    [510, 497],
    [300, 497],
  ] as const;
  const mark = (count: number): void => {
    for (const [number, at] of CORNERS.slice(0, count).entries()) seen.hands?.moveCorner(0, number, at, true);
  };

  beforeEach(() => {
    page = fakePage();
    page("own-tool").buttons = buttonsFor("corners", "piece", "edges");
    seen.openings.length = 0;
    answer = [];
    page("own-size").value = "210x297";
    page("own-light").value = "1";
    vi.stubGlobal(
      "Image",
      class {
        src = "";
        decode(): Promise<void> {
          return Promise.resolve();
        }
      },
    );
    vi.stubGlobal("createImageBitmap", () => Promise.resolve({ width: 1200, height: 900, close: () => {} }));
  });

  it("is told nothing of an earlier photograph that fails late", async () => {
    start();
    const bad = give("bad.jpg");
    give("good.jpg").opened();
    await settled();
    bad.failed();
    await settled();
    expect(page("own-view").dataset["file"]).toBe("good.jpg");
    expect(wrong()).toBe("");
  });

  it("is the earlier photograph where the later one is none, and says so", async () => {
    start();
    const good = give("good.jpg");
    give("bad.txt").failed();
    await settled();
    good.opened();
    await settled();
    expect(page("own-view").dataset["file"]).toBe("good.jpg");
    expect(wrong()).not.toBe("");
  });

  it("hangs nothing by corners that have moved since", async () => {
    start();
    give("room.jpg").opened();
    await settled();
    take("piece");
    expect(says()).toMatch(/100\s×\s80\smm/);
    take("corners");
    mark(1);
    expect(seen.state?.wall).toBeUndefined();
    expect(says()).toBe("");
    expect(answer).toEqual([]);
  });

  it("judges the corners anew once the paper is another", async () => {
    start();
    page("own-size").value = "600x100";
    give("room.jpg").opened();
    await settled();
    mark(4);
    expect(wrong()).toContain("No such sheet");
    take("edges");
    change("own-size", "210x297");
    expect(wrong()).toBe("");
    expect(says()).toContain("above the floor");
  });

  it("has the same light and shadow whichever photograph comes first", async () => {
    start(GIVEN);
    give("early.jpg").opened();
    await settled();
    const early = seen.state?.look;
    start(GIVEN);
    await settled();
    expect(seen.state?.look).toMatchObject({ amount: 0.4, shadow: 0.1 });
    give("late.jpg").opened();
    await settled();
    expect(seen.state?.look).toEqual(early);
  });

  it("stands in the answer once the piece was moved, however the pointer ends", async () => {
    start(GIVEN);
    await settled();
    for (const kind of ["pointerup", "keyup"]) page("own-view").dispatchEvent(new Event(kind));
    expect(answer).toEqual([]);
    seen.hands?.movePiece([25, 10], false);
    expect(answer.join("\n")).toMatch(/On the wall: 100\s×\s80\smm/);
  });
});
