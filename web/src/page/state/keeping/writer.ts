// One writer per job. Where the browser has Web Locks, a tab holds the job's lock while it may write the job; where it has
// none, the tab keeps renewing a lease in the database, and another tab may take it once it has run out.
import type { Database } from "./database";

/** A lease holds this long; a tab in the background renews it once a minute at most. */
export const LEASE_MS = 150_000;
export const RENEW_MS = 20_000;

export interface Claim {
  /** Whether this tab may write the job, now that it is asked. */
  readonly held: boolean;
  /** Whether no other tab can have taken it meanwhile. */
  isSure(): boolean;
  /** Let go of it, or stop waiting for it. */
  release(): void;
}

/** How the two ways tell of what happens later. */
export interface ClaimEvents {
  /** The tab that held the job has let go of it, and this one holds it. */
  granted(): void;
  /** Another tab has taken the job. */
  lost(): void;
}

/** Claim a job for this tab. */
export type Claimer = (id: string, events: ClaimEvents) => Promise<Claim>;

/** Claims by Web Locks: the browser gives a lock back when its tab ends, in whatever way. */
export function lockClaimer(locks: LockManager): Claimer {
  return async (id, events) => {
    const name = `tuckfold-job-${id}`;
    const ended = new AbortController();
    /** Resolves when the claim is released; until then the lock is held. */
    const held = (): Promise<void> =>
      new Promise((resolve) => {
        if (ended.signal.aborted) resolve();
        else ended.signal.addEventListener("abort", () => resolve(), { once: true });
      });
    let holds = await new Promise<boolean>((resolve, reject) => {
      locks
        .request(name, { ifAvailable: true }, (lock) => {
          resolve(lock !== null);
          return lock === null ? undefined : held();
        })
        .catch(reject);
    });
    if (!holds) {
      const granted = (): Promise<void> => {
        holds = true;
        events.granted();
        return held();
      };
      locks.request(name, { signal: ended.signal }, granted).catch((reason: unknown) => {
        if (!ended.signal.aborted) console.warn(reason);
      });
    }
    return {
      get held() {
        return holds;
      },
      isSure: () => true,
      release: () => ended.abort(),
    };
  };
}

/** Claims by leases in the database. */
export function leaseClaimer(database: Database, tab: string, now: () => number = Date.now): Claimer {
  return async (id, events) => {
    let sureUntil_ms = now() + LEASE_MS;
    let holds = await takeLease(database, id, tab, now());
    const timer = setInterval(() => {
      const asked_ms = now();
      void takeLease(database, id, tab, asked_ms).then((has) => {
        if (has) sureUntil_ms = asked_ms + LEASE_MS;
        if (has === holds) return;
        holds = has;
        if (has) events.granted();
        else events.lost();
      });
    }, RENEW_MS);
    const release = (): void => {
      clearInterval(timer);
      removeEventListener("pagehide", release);
      if (holds) void giveLease(database, id, tab);
      holds = false;
    };
    // A lock ends with its page; so does a lease.
    addEventListener("pagehide", release);
    return {
      get held() {
        return holds;
      },
      isSure: () => now() < sureUntil_ms,
      release,
    };
  };
}

async function takeLease(database: Database, id: string, tab: string, now_ms: number): Promise<boolean> {
  const taking = database.transaction("leases", "readwrite");
  const lease = await taking.store.get(id);
  const free = lease === undefined || lease.tab === tab || lease.until_ms <= now_ms;
  if (free) await taking.store.put({ id, tab, until_ms: now_ms + LEASE_MS });
  await taking.done;
  return free;
}

async function giveLease(database: Database, id: string, tab: string): Promise<void> {
  const giving = database.transaction("leases", "readwrite");
  if ((await giving.store.get(id))?.tab === tab) await giving.store.delete(id);
  await giving.done;
}

/** The browser's own way. Locks may be there and still be refused, as to a page without an origin of its own. */
export async function browserClaimer(database: Database): Promise<Claimer> {
  const locks = "locks" in navigator ? navigator.locks : undefined;
  const answers = await locks?.query().then(
    () => true,
    () => false,
  );
  return locks !== undefined && answers === true ? lockClaimer(locks) : leaseClaimer(database, randomId());
}

export function randomId(): string {
  return Array.from(crypto.getRandomValues(new Uint32Array(4)), (part) => part.toString(36)).join("-");
}
