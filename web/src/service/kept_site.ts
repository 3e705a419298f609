// What is kept of the site for a start without a network. Files with hashed names lie in one cache, whatever build they come
// from, so that a new build fetches only what is new; what has no hash in its name lies in a cache for each build.
import type { Site, SiteFile } from "./site_files";

/** Where the list of a build lies in the build's cache. */
const LIST = "tuckfold-files";

/** So many files are fetched at once: the page itself has the right of way. */
const AT_ONCE = 3;

export class KeptSite {
  readonly #caches: CacheStorage;
  readonly #scope: string;
  readonly #fetch: typeof fetch;

  /** Caches belong to an origin, which may hold several sites: their names hold the site's address, `scope`. */
  constructor(caches: CacheStorage, scope: string, fetching: typeof fetch) {
    this.#caches = caches;
    this.#scope = scope;
    this.#fetch = fetching;
  }

  /** Fetch and keep what is not kept yet, each file checked against its hash. Rejects where one does not come. */
  async fill({ version }: Site, files: readonly SiteFile[]): Promise<void> {
    const [lasting, own] = await Promise.all([this.#hashed(), this.#build(version)]);
    const paths = files.map((file) => file.path);
    await own.put(this.#address(LIST), new Response(JSON.stringify(paths)));
    const waiting = [...files];
    const work = async (): Promise<void> => {
      for (let file = waiting.shift(); file !== undefined; file = waiting.shift()) {
        const cache = file.hashed ? lasting : own;
        const address = this.#address(file.path);
        if ((await cache.match(address)) !== undefined) continue;
        const { integrity } = file;
        // What never changes may come from what the browser has kept of the page's own visit.
        const answer = await this.#fetch(address, { integrity, cache: file.hashed ? "default" : "no-cache" });
        if (!answer.ok) throw new Error(`${file.path}: ${answer.status} ${answer.statusText}`);
        await cache.put(address, answer);
      }
    };
    await Promise.all(Array.from({ length: AT_ONCE }, work));
  }

  /** A file of a build, or one with a hashed name of any; undefined where it is not kept. */
  async find({ version }: Site, path: string): Promise<Response | undefined> {
    const address = this.#address(path);
    const [lasting, own] = await Promise.all([this.#hashed(), this.#build(version)]);
    return (await own.match(address)) ?? lasting.match(address);
  }

  /** Let go of all builds but this one and the one before, which a page may still show that was not loaded again. */
  async tidy({ version }: Site): Promise<void> {
    const names = await this.#caches.keys();
    const builds = names.filter((name) => name.startsWith(this.#buildName("")));
    const kept = builds.filter((name) => name !== this.#buildName(version)).slice(-1);
    kept.push(this.#buildName(version));
    await Promise.all(builds.filter((name) => !kept.includes(name)).map((name) => this.#caches.delete(name)));
    const wanted = new Set((await Promise.all(kept.map((name) => this.#listed(name)))).flat());
    const lasting = await this.#hashed();
    for (const { url } of await lasting.keys()) {
      if (!wanted.has(url)) await lasting.delete(url);
    }
  }

  async #listed(name: string): Promise<string[]> {
    const list = await (await this.#caches.open(name)).match(this.#address(LIST));
    const paths: unknown = await list?.json();
    return Array.isArray(paths) ? paths.map((path) => this.#address(String(path))) : [];
  }

  #hashed(): Promise<Cache> {
    return this.#caches.open(`tuckfold files ${this.#scope}`);
  }

  #build(version: string): Promise<Cache> {
    return this.#caches.open(this.#buildName(version));
  }

  #buildName(version: string): string {
    return `tuckfold build ${this.#scope} ${version}`;
  }

  #address(path: string): string {
    return new URL(path, this.#scope).href;
  }
}
