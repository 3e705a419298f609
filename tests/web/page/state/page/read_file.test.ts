import { describe, expect, it } from "vitest";
import { bytesIn, textOf } from "../../../../../web/src/page/state/page/read_file";
import { CoreError } from "../../../../../web/src/worker/errors";

const refused = (reading: Promise<unknown>): Promise<CoreError> =>
  reading.then(
    () => Promise.reject(new Error("it was read")),
    (failure: unknown) => (failure instanceof CoreError ? failure : Promise.reject(new Error("another error"))),
  );

describe("a file that the browser does not give", () => {
  it("is named in the page's own words, with a way on: a folder, or a file that is gone", async () => {
    const gone = new File([], "gone.jpg");
    gone.arrayBuffer = () => Promise.reject(new DOMException("A requested file could not be found.", "NotFoundError"));
    const { message, remedy } = await refused(bytesIn(gone));
    expect(message).toBe(
      "gone.jpg cannot be read: it is a folder, or it was moved, changed or deleted after it was chosen.",
    );
    expect(remedy).toBe("choose the file again");
  });

  it("is not asked for where it is larger than a page can hold in one piece", async () => {
    const huge = new File([], "huge.tif");
    Object.defineProperty(huge, "size", { value: 3.2e9 });
    const { message } = await refused(bytesIn(huge));
    expect(message).toBe("The file huge.tif has 3.2 GB; a browser reads at most 2 GB at once.");
  });
});

it("reads text in UTF-8 and refuses other bytes", async () => {
  expect(await textOf(new File(["Größe"], "a.json"))).toBe("Größe");
  const { message } = await refused(textOf(new File([new Uint8Array([0x47, 0xf6])], "a.json")));
  expect(message).toBe("The file a.json is no text in UTF-8.");
});
