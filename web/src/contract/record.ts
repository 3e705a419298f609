// What is read of data whose form is not known yet.

/** Whether something is an object with named parts. */
export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
