import { afterEach, describe, expect, it } from "vitest";
import german from "../../../pycore/speech/data/de.json";
import { browserLanguage } from "../../../web/src/speech/on_page";
import { lowered, pieces, say, saidAgain, speak } from "../../../web/src/speech/say";
import { parsed } from "../../../web/src/speech/template";

afterEach(() => speak("en", {}));

describe("what is said", () => {
  it("is the English template with its values, where no other language is in use", () => {
    expect(say("{width} mm wide {{x}}", { width: 2.5 })).toBe("2.5 mm wide {x}");
  });

  it("is the catalogue's template, with the language's decimal sign in numbers and texts of digits", () => {
    speak("de", { "{a} of {b}": "{b} von {a}" });
    expect(say("{a} of {b}", { a: 2.5, b: "−0.5" })).toBe("−0,5 von 2,5");
    // With the format `s` a text stays as it is: here the point stands between thousands.
    expect(say("{a:s} of {b}", { a: "1.500", b: "2.5" })).toBe("1.500 of 2,5");
    // A name with a point in it is no number.
    expect(say("{a} of {b}", { a: "v1.2.tif", b: 3 })).toBe("3 von v1.2.tif");
  });

  it("chooses by number and by word", () => {
    speak("de", {
      "{count} sheets": "{count, plural, one {ein Bogen} other {{count} Bogen}}",
      "on the {loaded}": "auf {loaded, select, roll {der Rolle} other {dem Bogen}}",
    });
    expect([1, 2].map((count) => say("{count} sheets", { count }))).toEqual(["ein Bogen", "2 Bogen"]);
    expect(["roll", "sheet"].map((loaded) => say("on the {loaded}", { loaded }))).toEqual([
      "auf der Rolle",
      "auf dem Bogen",
    ]);
  });

  it("keeps the places apart for elements, in the order of the language", () => {
    speak("de", { "{file} was saved": "Gespeichert ist {file}" });
    expect(pieces("{file} was saved", {})).toEqual(["Gespeichert ist ", { name: "file" }]);
  });

  it("lowers a label in English only", () => {
    expect(lowered("Edge drawn out")).toBe("edge drawn out");
    speak("de", {});
    expect(lowered("Kante ausgezogen")).toBe("Kante ausgezogen");
  });

  it("leaves a sentence of unknown origin as it is", () => {
    speak("de", { Python: "Python!" });
    expect([saidAgain("Python"), saidAgain("{odd")]).toEqual(["Python!", "{odd"]);
  });
});

it("reads every German template", () => {
  for (const template of Object.values(german)) expect(parsed(template).length).toBeGreaterThanOrEqual(1);
});

it.each([
  [["de-AT", "en"], "de"],
  [["fr", "en-GB", "de"], "en"],
  [["fr"], "en"],
  [[], "en"],
])("of a browser that wants %j the page takes %s", (wanted, expected) => {
  expect(browserLanguage(wanted)).toBe(expected);
});
