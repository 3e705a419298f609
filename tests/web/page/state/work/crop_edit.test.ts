import { expect, it, vi } from "vitest";
import type { Edit } from "../../../../../web/src/page/state/work/edit";
import { JOB } from "../../jobs";

const proposed: Edit[] = [];

vi.mock("../../../../../web/src/page/state/work/run", () => ({
  propose: (edit: Edit) => {
    proposed.push(edit);
    return Promise.resolve();
  },
}));

const { cropGesture, offerCrop } = await import("../../../../../web/src/page/state/work/crop_edit");

const CROP = { x: 0.1, y: 0.1, width: 0.5, height: 0.5 };

it("gives all changes of one drag the same gesture, and the next drag another", async () => {
  cropGesture.press();
  await offerCrop(CROP);
  await offerCrop({ ...CROP, x: 0.2 });
  cropGesture.release();
  cropGesture.press();
  await offerCrop({ ...CROP, x: 0.3 });
  const [first, second, third] = proposed.map(({ gesture }) => gesture);
  expect(first).toBeTypeOf("string");
  expect(second).toBe(first);
  expect(third).not.toBe(first);
  expect(proposed[1]?.change(JOB).picture.crop).toEqual({ ...CROP, x: 0.2 });
});

it("takes the largest crop as a step of its own", async () => {
  proposed.length = 0;
  await offerCrop(undefined);
  expect(proposed[0]).not.toHaveProperty("gesture");
  expect(proposed[0]?.change({ ...JOB, picture: { ...JOB.picture, crop: CROP } }).picture).not.toHaveProperty("crop");
});
