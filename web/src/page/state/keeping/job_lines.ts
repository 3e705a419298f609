// A kept job in words, for the list. Pure.
import { sizeShown, type Unit } from "../../../units";
import { bytesOfParts, type JobEntry } from "./records";
import { bytesShown } from "./room";
import { say } from "../../../speech/on_page";

/** Its name, or that it has none. */
export function jobName({ name }: Pick<JobEntry, "name">): string {
  return name || say("No name yet");
}

/** What tells it from the other jobs in words: its name, and where another has the same, its size and its time too. */
export function jobAbout(
  entry: JobEntry,
  all: readonly JobEntry[],
  unit: Unit,
  now_ms: number,
  language?: string,
): string {
  const name = jobName(entry);
  if (all.filter((one) => jobName(one) === name).length < 2) return name;
  return `${name}, ${jobSize(entry, unit)}, ${jobDate(entry.changed_ms, now_ms, language)}`;
}

/** The name of a job's copy, which no other job has. */
export function copyName(old: string, all: readonly Pick<JobEntry, "name">[]): string {
  const named = (number: number): string =>
    number === 1 ? say("{old} (copy)", { old }) : say("{old} (copy {number})", { old, number });
  let number = 1;
  while (all.some(({ name }) => name === named(number))) number += 1;
  return named(number);
}

/** The size of the piece: of each panel where there are several. */
export function jobSize({ width_mm, height_mm, panels }: JobEntry, unit: Unit): string {
  const each = panels > 1 ? say("{panels} panels, each ", { panels }) : "";
  return `${each}${sizeShown(width_mm, height_mm, unit)}`;
}

/** The room that it takes in the browser. */
export function jobRoom({ parts }: JobEntry): string {
  const bytes = bytesOfParts(parts);
  return bytes === 0 ? say("no picture") : bytesShown(bytes);
}

/** When it changed: the time of today, otherwise the date, as the browser's language writes them. */
export function jobDate(changed_ms: number, now_ms: number, language?: string): string {
  const [changed, now] = [new Date(changed_ms), new Date(now_ms)];
  const time = changed.toLocaleTimeString(language, { hour: "2-digit", minute: "2-digit" });
  if (changed.toDateString() === now.toDateString()) return say("today, {time}", { time });
  return changed.toLocaleDateString(language, { day: "numeric", month: "short", year: "numeric" });
}
