import { expect, it } from "vitest";
import { fieldName } from "../../../../../web/src/page/state/page/names";
import { errorSentence, faultSentence } from "../../../../../web/src/page/state/page/fields";

it("an error is a sentence that names the field in words", () => {
  const why = { field: "bars.depth_mm", expected: "a number 6 to 100 mm", got: "3", remedy: "use deeper bars" };
  expect(faultSentence(why)).toBe("Bar depth must be 6 to 100 mm; you gave 3.");
  expect(errorSentence(why)).toBe("Bar depth must be 6 to 100 mm; you gave 3. Use deeper bars.");
});

it("an error about no field says what happened", () => {
  const why = { field: "", expected: "an answer", got: "the program stopped", remedy: "load the page again" };
  expect(errorSentence(why)).toBe("The program stopped. Load the page again.");
});

it.each(["__proto__", "toString", "constructor", "sides.top.__proto__", "hasOwnProperty"])(
  "a job's key %s is text and no more",
  (field) => {
    const name = fieldName(field);
    expect(typeof name).toBe("string");
    expect(faultSentence({ field, expected: "a field of the job", got: "an unknown name", remedy: "" })).toContain(
      "must be a field of the job",
    );
  },
);
