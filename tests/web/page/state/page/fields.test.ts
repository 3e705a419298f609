import { expect, it } from "vitest";
import { fieldName } from "../../../../../web/src/page/state/page/names";
import { entryError, errorSentence, failureText } from "../../../../../web/src/page/state/page/fields";
import { unit } from "../../../../../web/src/page/state/page/settings";
import { inUnit } from "../../../../../web/src/units";
import { CoreError } from "../../../../../web/src/worker/errors";

it("the core's sentence is the page's, whatever was expected", () => {
  const failure = new CoreError({
    code: "profile",
    field: "colour.profile",
    expected: "at least 128 bytes",
    got: "12",
    remedy: "use another file",
    values: {},
    message: "The file is no ICC profile: it has 12 bytes.",
  });
  expect(errorSentence(failureText(failure))).toBe("The file is no ICC profile: it has 12 bytes. Use another file.");
});

it.each([
  ["2.54", "0.1 in"],
  ["508 in the variant “508 mm”", "20 in in the variant “20 in”"],
])("a refused length is shown in inches where the page shows inches: %s", (got, shown) => {
  const failure = new CoreError({
    code: "field",
    field: "bars.depth_mm",
    expected: "6 to 100 mm",
    got,
    remedy: "give a value in that range",
    values: {},
    message: `Bar depth must be 6 to 100 mm; you gave ${got}.`,
  });
  expect(failureText(failure).message).toBe(`Bar depth must be 6 to 100 mm; you gave ${got}.`);
  unit.value = "inch";
  // Derived: 6, 100, 2.54 and 508 mm are 0.24, 3.94, 0.1 and 20 in.
  expect(inUnit(failureText(failure).message, "inch")).toBe(`Bar depth must be 0.24 to 3.94 in; you gave ${shown}.`);
  unit.value = "mm";
});

it("what the page itself cannot read is worded as the core words it", () => {
  // The core's own example of its errors, in pycore/errors.py.
  expect(errorSentence(entryError("bars.depth_mm", "6 to 100 mm", "3", "use deeper bars"))).toBe(
    "Bar depth must be 6 to 100 mm; you gave 3. Use deeper bars.",
  );
});

it.each(["__proto__", "toString", "constructor", "sides.top.__proto__", "hasOwnProperty"])(
  "a job's key %s is text and no more",
  (field) => {
    const name = fieldName(field);
    expect(typeof name).toBe("string");
    expect(entryError(field, "a field of the job", "an unknown name", "").message).toContain(
      "must be a field of the job",
    );
  },
);
