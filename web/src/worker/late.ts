// Packages that only some methods need; they are fetched when one of these is first called.
import type { PyodideAPI } from "pyodide";
import type { Method } from "../contract/types";

const LATE: Partial<Record<Method, readonly string[]>> = {
  plan: ["rectpack"],
  ticket: ["fpdf2", "defusedxml", "fonttools"],
};

/** What fetches all that a method needs besides; it gives undefined where that is there, and rejects where it cannot be had. */
export function fetchForOf(python: PyodideAPI): (method: Method) => Promise<void> | undefined {
  return (method) => {
    const missing = lacking(python, method);
    return missing.length === 0 ? undefined : fetchPackages(python, method, missing);
  };
}

function lacking(python: PyodideAPI, method: Method): string[] {
  return (LATE[method] ?? []).filter((name) => python.loadedPackages[name] === undefined);
}

/** Pyodide tells of a package that did not come on its console only, so what is there is looked up. */
async function fetchPackages(python: PyodideAPI, method: Method, names: string[]): Promise<void> {
  await python.loadPackage(names, { messageCallback: () => {} });
  const missing = lacking(python, method);
  if (missing.length > 0) throw new Error(`${missing.join(", ")} did not come`);
}
