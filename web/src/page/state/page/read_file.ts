// What lies in a file that the user opens: its bytes, or its text.
import { CoreError } from "../../../worker/errors";
import { say } from "../../../speech/on_page";

/** A page holds no more bytes in one piece. */
const LARGEST_BYTES = 2 ** 31 - 1;

/** A file's bytes. Rejects with a CoreError where the browser does not give them. */
export async function bytesIn(file: File): Promise<ArrayBuffer> {
  if (file.size > LARGEST_BYTES) {
    const size = (file.size / 1e9).toFixed(1);
    throw refused(file, {
      message: say("The file {file} has {size} GB; a browser reads at most 2 GB at once.", { file: file.name, size }),
      remedy: say("choose a smaller file"),
    });
  }
  try {
    return await file.arrayBuffer();
  } catch {
    // What the browser says differs from one to the other, and is never in the page's words.
    throw refused(file, {
      message: say(
        "{file:s} cannot be read: it is a folder, or it was moved, changed or deleted after it was chosen.",
        { file: file.name },
      ),
      remedy: say("choose the file again"),
    });
  }
}

/** A file's text: other bytes than UTF-8's are refused, not replaced. Rejects with a CoreError. */
export async function textOf(file: File): Promise<string> {
  const bytes = await bytesIn(file);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw refused(file, {
      expected: say("text in UTF-8"),
      message: say("The file {file} is no text in UTF-8.", { file: file.name }),
      remedy: say("save it as text in UTF-8"),
    });
  }
}

interface Refusal {
  readonly expected?: string;
  readonly message: string;
  readonly remedy: string;
}

function refused(file: File, { expected = say("a file that can be read"), message, remedy }: Refusal): CoreError {
  return new CoreError({
    code: "field",
    field: "",
    expected,
    got: file.name,
    remedy,
    message,
    values: { file: file.name },
  });
}
