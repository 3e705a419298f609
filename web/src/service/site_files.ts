// The files of one build of the site. The build puts the list in front of this program, as `tuckfoldSite`, so that another
// build has another program.

/** Which start of Python a file is for: by the snapshot, the plain one, or both. */
export type Start = "both" | "snapshot" | "plain";

export interface SiteFile {
  /** Below the site's folder. */
  readonly path: string;
  /** As `fetch` checks it. */
  readonly integrity: string;
  readonly start: Start;
  /** Whether the name holds a hash of the bytes, so that they never change. */
  readonly hashed: boolean;
}

export interface Site {
  /** A hash of the whole list. */
  readonly version: string;
  readonly files: readonly SiteFile[];
}

/** The files that a browser needs: those of the plain start too, by which Python starts again after a crash. */
export function neededFiles({ files }: Site, canRestore: boolean): readonly SiteFile[] {
  const order: readonly Start[] = canRestore ? ["both", "snapshot", "plain"] : ["both", "plain"];
  return order.flatMap((start) => files.filter((file) => file.start === start));
}

/** The path of a file below the site's folder; undefined for an address elsewhere. */
export function pathBelow(address: string, scope: string): string | undefined {
  const { origin, pathname } = new URL(address);
  const folder = new URL(scope);
  if (origin !== folder.origin || !pathname.startsWith(folder.pathname)) return undefined;
  return decodeURI(pathname.slice(folder.pathname.length)) || "index.html";
}
