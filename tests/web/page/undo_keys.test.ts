import { expect, it } from "vitest";
import { stepOf } from "../../../web/src/page/undo_keys";

const press = (key: string, held: Partial<Record<"ctrlKey" | "metaKey" | "shiftKey" | "altKey", boolean>>) =>
  stepOf({ key, ctrlKey: false, metaKey: false, shiftKey: false, altKey: false, ...held });

it("undoes by Ctrl or Cmd with Z", () => {
  expect(press("z", { ctrlKey: true })).toBe("undo");
  expect(press("z", { metaKey: true })).toBe("undo");
});

it("redoes by the same with Shift, whose key is then a capital, and by Ctrl with Y", () => {
  expect(press("Z", { ctrlKey: true, shiftKey: true })).toBe("redo");
  expect(press("Z", { metaKey: true, shiftKey: true })).toBe("redo");
  expect(press("y", { ctrlKey: true })).toBe("redo");
});

it("leaves everything else to the browser", () => {
  expect(press("z", {})).toBeUndefined();
  expect(press("z", { ctrlKey: true, altKey: true })).toBeUndefined();
  expect(press("y", { metaKey: true })).toBeUndefined();
});
