import { expect, test } from "vitest";
import { ContractError, decodeError, decodeProgress, decodeReply } from "../../../web/src/contract/decode";

const note = {
  code: "a",
  severity: "watch",
  place: "face",
  message: "b",
  remedy: "c",
  values: { width_mm: 2.5, side: "left" },
  field: "",
};
const info = {
  file: "a.png",
  format: "PNG",
  width_px: 3,
  height_px: 2,
  mode: "RGB",
  profile_name: "",
  profile_assumed: true,
  notes: [note],
};
const thumbnail = {
  place: 0,
  shape: [2, 3, 4],
  dtype: "uint8",
  state: "srgb_encoded",
};

/** An `open` reply with one thing changed. */
function opened(change: object): string {
  return JSON.stringify({ info: { ...info, ...change }, thumbnail });
}

test("a reply that keeps the contract comes through whole", () => {
  expect(decodeReply("open", opened({}))).toEqual({ info, thumbnail });
});

test.each([
  ["a missing field", opened({ mode: undefined }), "reply.info.mode is missing"],
  ["an unknown field", opened({ extra: 1 }), "reply.info.extra is unknown"],
  ["a wrong type", opened({ width_px: "3" }), "reply.info.width_px is not of type integer"],
  ["a broken number", opened({ width_px: 2.5 }), "reply.info.width_px is not of type integer"],
  ["null, which is never sent", opened({ mode: null }), "reply.info.mode is not of type string"],
  [
    "a value that is none",
    opened({ notes: [{ ...note, values: { width_mm: [2] } }] }),
    "reply.info.notes.0.values.width_mm is of no type it may be",
  ],
  ["a wrong word", opened({ notes: [{ ...note, severity: "loud" }] }), "reply.info.notes.0.severity is none of"],
  ["a list instead of an object", opened({ notes: [[]] }), "reply.info.notes.0 is not of type object"],
  ["text that is no JSON", "{", "not JSON"],
])("%s is refused, and named", (_what, text, message) => {
  expect(() => decodeReply("open", text)).toThrow(ContractError);
  expect(() => decodeReply("open", text)).toThrow(message);
});

test("a tuple must have its number of items", () => {
  const report = {
    file: "a.tif",
    width_px: 1,
    height_px: 1,
    ppi: [300],
    size_mm: [1, 1],
    profile_name: "",
    bytes: 1,
    format: "TIFF",
    bits: 8,
  };
  const text = JSON.stringify({ report, parts: [], notes: [] });
  // derived: ppi is a pair in pycore/bridge/messages.py.
  expect(() => decodeReply("print", text)).toThrow("reply.report.ppi has not 2 items");
});

test("errors and progress are checked too", () => {
  const error = {
    code: "field",
    field: "a",
    expected: "b",
    got: "c",
    remedy: "d",
    values: {},
    message: "e",
  };
  expect(decodeError(JSON.stringify(error))).toEqual(error);
  expect(() => decodeError("{}")).toThrow("error.code is missing");
  expect(decodeProgress('{"done": 0.5, "label": "strip"}')).toEqual({
    done: 0.5,
    label: "strip",
  });
  expect(() => decodeProgress('{"done": "half", "label": "strip"}')).toThrow("progress.done is not of type number");
});
