import { describe, expect, it } from "vitest";
import { copyName, jobAbout, jobDate, jobRoom, jobSize } from "../../../../../web/src/page/state/keeping/job_lines";
import type { JobEntry } from "../../../../../web/src/page/state/keeping/records";
import { bytesShown, isNearlyFull } from "../../../../../web/src/page/state/keeping/room";

const ENTRY: JobEntry = {
  id: "a",
  name: "",
  client: "",
  width_mm: 300,
  height_mm: 200,
  panels: 1,
  changed_ms: 0,
  parts: [
    { role: "picture", name: "a.png", key: "x", bytes: 2_000_000 },
    { role: "picture", name: "b.png", key: "x", bytes: 2_000_000 },
    { role: "profile", name: "c.icc", key: "y", bytes: 400_000 },
  ],
};

describe("a job in the list", () => {
  it("has its size, and the room of each file once", () => {
    expect(jobSize(ENTRY, "mm")).toBe("300 × 200 mm");
    expect(jobSize({ ...ENTRY, panels: 3 }, "mm")).toBe("3 panels, each 300 × 200 mm");
    expect(jobRoom(ENTRY)).toBe("2.4 MB");
    expect(jobRoom({ ...ENTRY, parts: [] })).toBe("no picture");
  });

  it("is told from another of its name by size and time, and its copy has a name of its own", () => {
    const entries = ["Quay", "Quay", "Dune", "Quay (copy)"].map((name, place) => ({
      ...ENTRY,
      id: String(place),
      name,
    }));
    const noon = new Date(2031, 3, 30, 12, 5).getTime();
    const about = entries.map((one) => jobAbout({ ...one, changed_ms: noon }, entries, "mm", noon, "en-GB"));
    const told = "Quay, 300 × 200 mm, today, 12:05";
    expect(about).toEqual([told, told, "Dune", "Quay (copy)"]);
    expect([copyName("Dune", entries), copyName("Quay", entries)]).toEqual(["Dune (copy)", "Quay (copy 2)"]);
  });

  it("has the time of today, and the date of other days", () => {
    const noon = new Date(2031, 3, 30, 12, 5).getTime();
    expect(jobDate(noon, new Date(2031, 3, 30, 18).getTime(), "en-GB")).toBe("today, 12:05");
    expect(jobDate(noon, new Date(2031, 4, 1, 0, 1).getTime(), "en-GB")).toBe("30 Apr 2031");
  });
});

describe("the room", () => {
  it("is read in kilobytes, megabytes and gigabytes", () => {
    // Derived: rounded to what the unit shows.
    expect([12, 4_200, 940_000, 1_000_000, 12_400_000, 10_738_000_000].map(bytesShown)).toEqual([
      "1 kB",
      "4 kB",
      "940 kB",
      "1.0 MB",
      "12 MB",
      "10.7 GB",
    ]);
  });

  it("is nearly full at four fifths, or where the next picture does not fit", () => {
    const room = { used_bytes: 70, whole_bytes: 100 };
    expect(isNearlyFull(room, 10)).toBe(false);
    expect(isNearlyFull(room, 31)).toBe(true);
    expect(isNearlyFull({ used_bytes: 81, whole_bytes: 100 }, 0)).toBe(true);
  });
});
