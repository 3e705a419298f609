import { beforeEach, expect, test } from "vitest";
import { KeptSite } from "../../../web/src/service/kept_site";
import { neededFiles, pathBelow, type Site, type SiteFile } from "../../../web/src/service/site_files";

const SCOPE = "https://host.example/any/path/";

/** Caches in memory, as far as they are used. */
class FakeCaches {
  readonly stores = new Map<string, Map<string, string>>();

  open = (name: string): Promise<Cache> => {
    const store = this.stores.get(name) ?? new Map<string, string>();
    this.stores.set(name, store);
    const cache: Pick<Cache, "match" | "put" | "delete" | "keys"> = {
      match: (address) => {
        const text = store.get(addressOf(address));
        return Promise.resolve(text === undefined ? undefined : new Response(text));
      },
      put: async (address, answer) => void store.set(addressOf(address), await answer.text()),
      delete: (address) => Promise.resolve(store.delete(addressOf(address))),
      keys: () => Promise.resolve([...store.keys()].map((address) => new Request(address))),
    };
    return Promise.resolve(cache as Cache);
  };
  keys = (): Promise<string[]> => Promise.resolve([...this.stores.keys()]);
  delete = (name: string): Promise<boolean> => Promise.resolve(this.stores.delete(name));
}

function addressOf(request: RequestInfo | URL): string {
  return request instanceof Request ? request.url : String(request);
}

const file = (path: string, hashed = true): SiteFile => ({ path, hashed, integrity: `sha256-${path}`, start: "both" });
const site = (version: string, ...files: SiteFile[]): Site => ({ version, files });

let caches: FakeCaches;
let asked: [path: string, integrity: string | undefined, cache: string | undefined][];
let kept: KeptSite;

beforeEach(() => {
  caches = new FakeCaches();
  asked = [];
  const fetching: typeof fetch = (input, init) => {
    const path = addressOf(input).replace(SCOPE, "");
    asked.push([path, init?.integrity, init?.cache]);
    const gone = path.includes("gone");
    return Promise.resolve(gone ? new Response("", { status: 404 }) : new Response(`${path} of ${asked.length}`));
  };
  kept = new KeptSite(caches as unknown as CacheStorage, SCOPE, fetching);
});

const text = async (found: Promise<Response | undefined>): Promise<string | undefined> => (await found)?.text();

test("checks each file against its hash, and takes what never changes from the page's own visit", async () => {
  const one = site("1", file("assets/a-1.js"), file("index.html", false));
  await kept.fill(one, one.files);
  expect(asked).toEqual([
    ["assets/a-1.js", "sha256-assets/a-1.js", "default"],
    ["index.html", "sha256-index.html", "no-cache"],
  ]);
  expect(await text(kept.find(one, "index.html"))).toBe("index.html of 2");
  expect(await kept.find(one, "assets/b-1.js")).toBeUndefined();
});

test("fetches of a new build only what is new, and each build has its own page", async () => {
  const one = site("1", file("assets/a-1.js"), file("index.html", false));
  const two = site("2", file("assets/a-1.js"), file("assets/b-2.js"), file("index.html", false));
  await kept.fill(one, one.files);
  await kept.fill(two, two.files);
  expect(asked.slice(2).map(([path]) => path)).toEqual(["assets/b-2.js", "index.html"]);
  expect(await text(kept.find(one, "index.html"))).toBe("index.html of 2");
  expect(await text(kept.find(two, "index.html"))).toBe("index.html of 4");
});

test("keeps the build before, for a page that was not loaded again, and no older one", async () => {
  const builds = ["1", "2", "3"].map((version) =>
    site(version, file(`assets/a-${version}.js`), file("index.html", false)),
  );
  for (const one of builds) await kept.fill(one, one.files);
  const [, , last = site("")] = builds;
  await kept.tidy(last);
  expect(await kept.find(last, "assets/a-1.js")).toBeUndefined();
  expect(await text(kept.find(last, "assets/a-2.js"))).toBe("assets/a-2.js of 3");
  expect(await caches.keys()).toHaveLength(3);
});

test("leaves another site of the same origin alone", async () => {
  await caches.open("tuckfold build https://host.example/other/ 9");
  const one = site("1", file("index.html", false));
  await kept.fill(one, one.files);
  await kept.tidy(one);
  expect(await caches.keys()).toContain("tuckfold build https://host.example/other/ 9");
});

test("is not filled where a file does not come, and goes on from there", async () => {
  const broken = site("1", file("assets/a-1.js"), file("assets/gone-1.js"));
  await expect(kept.fill(broken, broken.files)).rejects.toThrow("assets/gone-1.js: 404");
  await expect(kept.fill(broken, broken.files)).rejects.toThrow("404");
  expect(asked.filter(([path]) => path === "assets/a-1.js")).toHaveLength(1);
});

test("takes the snapshot only where the browser can start from it, and the plain start always", () => {
  const files = (["plain", "snapshot", "both"] as const).map((start) => ({ ...file(start), start }));
  expect(neededFiles(site("1", ...files), true).map(({ path }) => path)).toEqual(["both", "snapshot", "plain"]);
  expect(neededFiles(site("1", ...files), false).map(({ path }) => path)).toEqual(["both", "plain"]);
});

test("knows the paths of its own folder alone", () => {
  expect(pathBelow(`${SCOPE}?start=plain`, SCOPE)).toBe("index.html");
  expect(pathBelow(`${SCOPE}py/a-1.wasm#x`, SCOPE)).toBe("py/a-1.wasm");
  expect(pathBelow("https://host.example/any/", SCOPE)).toBeUndefined();
  expect(pathBelow("https://other.example/any/path/", SCOPE)).toBeUndefined();
});
