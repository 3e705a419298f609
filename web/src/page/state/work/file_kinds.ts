// What a file is by its name and type, and which of several files are opened. Pure.
import { say } from "../../../speech/on_page";

export type FileKind = "job" | "profile" | "picture";

/** In this order they are opened: the job first, which names the others. */
const KINDS: readonly FileKind[] = ["job", "profile", "picture"];

/** More names than these are counted. */
const NAMES_SAID = 3;

export function isJobFile(file: File): boolean {
  return /\.json$/i.test(file.name) || file.type === "application/json";
}

export function isBundleFile(file: File): boolean {
  return /\.zip$/i.test(file.name) || file.type === "application/zip";
}

export function isProfileFile(file: File): boolean {
  return /\.ic[cm]$/i.test(file.name) || file.type === "application/vnd.iccprofile";
}

/** What is no job, bundle or profile is taken for a picture. */
export function kindOf(file: File): FileKind {
  if (isJobFile(file) || isBundleFile(file)) return "job";
  return isProfileFile(file) ? "profile" : "picture";
}

/** One file of each kind, in the order in which they are opened, and the others. A file that is called a picture is one. */
export function oneOfEach(files: readonly File[]): { readonly open: readonly File[]; readonly left: readonly File[] } {
  const open = KINDS.flatMap((kind) => {
    const alike = files.filter((file) => kindOf(file) === kind);
    const first = alike.find(({ type }) => kind === "picture" && type.startsWith("image/")) ?? alike[0];
    return first === undefined ? [] : [first];
  });
  return { open, left: files.filter((file) => !open.includes(file)) };
}

/** That files were left, and why. */
export function leftSentence(names: readonly string[]): string {
  const left = names.length > NAMES_SAID ? say("{count} files", { count: names.length }) : names.join(", ");
  return say("Not opened: {left:s}. A job has one picture and one canvas profile.", { left });
}
