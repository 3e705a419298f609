import { describe, expect, it } from "vitest";
import { answerText } from "../../../web/src/client/answer";

describe("the client's answer", () => {
  const lines = ["I choose B: 38 mm.", "Depth: 38 mm (1.5 in) off the wall"];

  it("has room for name and date where they are not given", () => {
    expect(answerText({ lines, by: " ", on: "", remarks: "\n" })).toBe(
      "I choose B: 38 mm.\nDepth: 38 mm (1.5 in) off the wall\n\nName:\nDate:",
    );
  });

  it("ends with the remarks, as they were written", () => {
    const text = answerText({
      lines,
      by: "Mara Quill",
      on: "2 May 2031",
      remarks: "Hang it\nhigh. </script>\n",
    });
    expect(text.split("\n").slice(3)).toEqual([
      "Name: Mara Quill",
      "Date: 2 May 2031",
      "",
      "Remarks: Hang it",
      "high. </script>",
    ]);
  });
});
