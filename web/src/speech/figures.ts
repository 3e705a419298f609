// Figures that stay with their units where a line ends. The core has the same rule in pycore/speech/figures.py.

const PARTED =
  /(?<=\d) (?=(?:[mck]?m[²³]?|mm²|in|px|ppi|m?g(?:\/m[²2])?|kg(?:\/m[³3])?|[kMG]B|K|N|%|ΔE00|dE00|s)(?![\p{L}\p{N}_]))|(?<=\d) (?=[x×] \d)|(?<=\d [x×]) (?=\d)/gu;

/** A sentence of the core, which writes for a plain terminal too, with the signs of print. */
export function typeset(sentence: string): string {
  return sentence
    .replace(/(?<=\d) x (?=\d)/g, " × ")
    .replace(/(?<=\d)%/g, " %")
    .replace(/\bm([23])\b/g, (_, power) => (power === "2" ? "m²" : "m³"))
    .replaceAll("dE00", "ΔE00");
}

/** A text whose figures stand in one line with their units, and both figures of a size with its sign, by no-break spaces. */
export function unparted(text: string): string {
  return text.replace(PARTED, "\u00a0");
}
