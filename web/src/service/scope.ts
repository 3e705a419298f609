// The parts of a service worker's world that are used here; the types of a page leave them out.
import type { Site } from "./site_files";

export interface LastingEvent extends Event {
  /** The browser lets the worker live until then. */
  waitUntil(work: Promise<unknown>): void;
}

export interface RequestEvent extends LastingEvent {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}

export interface ServiceScope {
  readonly tuckfoldSite: Site;
  readonly registration: { readonly scope: string };
  readonly clients: { claim(): Promise<void> };
  readonly caches: CacheStorage;
  readonly fetch: typeof fetch;
  skipWaiting(): Promise<void>;
  addEventListener(type: "install" | "activate", hear: (event: LastingEvent) => void): void;
  addEventListener(type: "fetch", hear: (event: RequestEvent) => void): void;
  addEventListener(type: "message", hear: (event: MessageEvent<unknown>) => void): void;
}
