/** Dates as files and answers write them. */

/** A day as YYYY-MM-DD, where the page is looked at. */
export function dayOf(now: Date): string {
  const two = (value: number): string => String(value).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
