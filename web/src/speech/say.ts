// What people read, in their language. The English sentence is the key of the other languages' catalogue.
import { flattened, parsed, type Piece, type Value } from "./template";

export type Language = "en" | "de";

let inUse: { language: Language; words: Readonly<Record<string, string>> } = { language: "en", words: {} };

/** Take a language into use, with its template for each English one. */
export function speak(spoken: Language, words: Readonly<Record<string, string>>): void {
  inUse = { language: spoken, words };
}

export function language(): Language {
  return inUse.language;
}

/** Say something in the language in use. The template is a literal, so that the catalogue's test sees it.
 * Where one English word has two in another language, `##` and what it means stand behind it: `Light##theme`. */
export function say(template: string, values: Readonly<Record<string, Value>> = {}): string {
  return pieces(template, values)
    .map((piece) => (typeof piece === "string" ? piece : valueShown(values[piece.name], piece.isText)))
    .join("");
}

/** The texts of a template and the names of its places, in the order of the language in use. */
export function pieces(template: string, values: Readonly<Record<string, unknown>>): Piece[] {
  return flattened(parsed(inUse.words[template] ?? template.replace(/##.*$/, "")), values);
}

/** A template whose values, or whose language, come later: `say` it then. */
export function mark(template: string): string {
  return template;
}

/** A sentence that another part of the program made in English, where the catalogue has it as it stands. */
export function saidAgain(sentence: string): string {
  return inUse.words[sentence] ?? sentence;
}

/** A label as it stands within a sentence; German keeps its capitals. */
export function lowered(text: string): string {
  return inUse.language === "de" ? text : text.toLowerCase();
}

/** A number's text with the decimal sign of the language in use. */
export function decimal(digits: string): string {
  return inUse.language === "de" ? digits.replace(".", ",") : digits;
}

/** Numbers in a row: semicolons stand between them where a comma is the decimal sign. */
export function inRow(numbers: readonly string[]): string {
  return numbers.join(inUse.language === "de" ? "; " : ", ");
}

const NUMBER = /^[-+−]?\d+\.\d+$/;

/** A value as it stands in a sentence; as a text it stays as it is. */
export function valueShown(value: Value | undefined, isText = false): string {
  if (value === undefined) throw new TypeError("a place of a sentence has no value");
  const text = String(value);
  return NUMBER.test(text) && !isText ? decimal(text) : text;
}
