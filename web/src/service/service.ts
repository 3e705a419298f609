// The service worker: it keeps every file of the site, those too that the page fetches late, and answers with them. So the
// page opens and works without a network, and each page has the files of one build, never of two.
import { checkTablesKeepFunctions } from "../worker/snapshot/support";
import { KeptSite } from "./kept_site";
import type { ServiceScope } from "./scope";
import { neededFiles, pathBelow } from "./site_files";

declare const self: ServiceScope;

/** What the page sends where the person wants the new version. */
const TAKE_OVER = "take over";

const site = self.tuckfoldSite;
const { scope } = self.registration;
const kept = new KeptSite(self.caches, scope, self.fetch.bind(self));
const paths = new Set(site.files.map((file) => file.path));

function canRestore(): boolean {
  try {
    checkTablesKeepFunctions();
    return true;
  } catch {
    return false;
  }
}

self.addEventListener("install", (event) => {
  event.waitUntil(kept.fill(site, neededFiles(site, canRestore())));
});

self.addEventListener("activate", (event) => {
  // A page that opened before the first version was kept is served by it from here on.
  event.waitUntil(kept.tidy(site).then(() => self.clients.claim()));
});

self.addEventListener("message", ({ data }) => {
  if (data === TAKE_OVER) void self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const path = pathBelow(request.url, scope);
  if (request.method !== "GET" || path === undefined) return;
  // The worker in which Python runs asks so for what it does not get otherwise (runtime_index.ts).
  if (path.startsWith("py/") && !request.url.endsWith("?kept")) return;
  // A page of the build before asks for files that this one has not, and finds them among those with hashed names.
  if (!paths.has(path) && !/^(assets|py)\//.test(path)) return;
  event.respondWith(kept.find(site, path).then((found) => found ?? self.fetch(request)));
});
