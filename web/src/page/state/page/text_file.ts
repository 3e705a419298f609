// The text of a file that the user opens: other bytes than UTF-8's are refused, not replaced.
import { CoreError } from "../../../worker/errors";
import { say } from "../../../speech/on_page";

/** A file's text. Rejects with a CoreError where it is none in UTF-8. */
export async function textOf(file: File): Promise<string> {
  const bytes = await file.arrayBuffer();
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new CoreError({
      code: "field",
      field: "",
      expected: say("text in UTF-8"),
      got: file.name,
      remedy: say("save it as text in UTF-8"),
      message: say("The file {file} is no text in UTF-8.", { file: file.name }),
      values: { file: file.name },
    });
  }
}
