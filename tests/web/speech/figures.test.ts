import { describe, expect, it } from "vitest";
import { typeset, unparted } from "../../../web/src/speech/figures";

const shown = (text: string): string => unparted(text).replaceAll("\u00a0", "_");

describe("figures", () => {
  it("stay with their units and with each other", () => {
    expect(shown("5.1 mm to spare across, 42,1 mm down.")).toBe("5.1_mm to spare across, 42,1_mm down.");
    expect(shown("5207 × 3826 pixels at 300 ppi; 60 MB")).toBe("5207_×_3826 pixels at 300_ppi; 60_MB");
    expect(shown("1112,7 × 233,9 mm (43,81 x 9,21 in)")).toBe("1112,7_×_233,9_mm (43,81_x_9,21_in)");
    expect(shown("13 % by more than 2.0 ΔE00, 358 to 717 kg/m³, 54 g")).toBe(
      "13_% by more than 2.0_ΔE00, 358 to 717_kg/m³, 54_g",
    );
  });

  it("of the core are shown with the signs of print", () => {
    expect(typeset("358 to 717 kg/m3; 85% to all of a 40 x 20 mm section; 5.0 dE00 at 380 g/m2")).toBe(
      "358 to 717 kg/m³; 85 % to all of a 40 × 20 mm section; 5.0 ΔE00 at 380 g/m²",
    );
  });

  it("leave other words where they are", () => {
    expect(shown("2 pieces, 4 meshes, 3 grey ones, 2 mäßige")).toBe("2 pieces, 4 meshes, 3 grey ones, 2 mäßige");
  });
});
