// The envelopes between the page and the worker. Replies, errors and progress travel as the JSON text that
// Python wrote; the page decodes them against the contract. Pictures and files travel as transferred buffers.
import { isRecord } from "../contract/record";

import type { Method } from "../contract/types";

/** From the page to the worker. */
export type ToWorker =
  | {
      kind: "start";
      /** The address of the folder of the Python runtime, its wheels and its lock file. */
      python: string;
      /** A Web Lock that the worker holds as long as it lives. */
      lock: string;
      /** Whether Python shall start by itself, without the snapshot. */
      plain: boolean;
      /** The language of what the core says, as a tag of BCP 47; English where it is left out. */
      language?: string;
    }
  | { kind: "call"; id: number; method: Method; params: string; buffer?: ArrayBuffer }
  | { kind: "stop"; id: number }
  /** Whether the worker still hears; it answers between two steps. */
  | { kind: "ping" };

/** From the worker to the page. */
export type FromWorker =
  | { kind: "alive" }
  | { kind: "pong" }
  | { kind: "loading"; done: number; label: string }
  | { kind: "ready" }
  | { kind: "failed"; message: string }
  | { kind: "progress"; id: number; text: string }
  | { kind: "result"; id: number; text: string; buffers: ArrayBuffer[] }
  | { kind: "error"; id: number; text: string }
  | { kind: "crashed"; message: string };

/** Whether something that came from the page is one of its envelopes. */
export function isToWorker(data: unknown): data is ToWorker {
  if (!isRecord(data)) return false;
  switch (data.kind) {
    case "start":
      return areTexts(data.python, data.lock, data.language ?? "") && typeof data.plain === "boolean";
    case "call":
      return typeof data.id === "number" && areTexts(data.method, data.params) && isOptionalBuffer(data.buffer);
    case "stop":
      return typeof data.id === "number";
    case "ping":
      return true;
    default:
      return false;
  }
}

/** Whether something that came from the worker is one of its envelopes. */
export function isFromWorker(data: unknown): data is FromWorker {
  if (!isRecord(data)) return false;
  switch (data.kind) {
    case "alive":
    case "pong":
    case "ready":
      return true;
    case "loading":
      return typeof data.done === "number" && areTexts(data.label);
    case "failed":
    case "crashed":
      return areTexts(data.message);
    case "progress":
    case "error":
      return typeof data.id === "number" && areTexts(data.text);
    case "result":
      return typeof data.id === "number" && areTexts(data.text) && areBuffers(data.buffers);
    default:
      return false;
  }
}

function areTexts(...values: unknown[]): boolean {
  return values.every((value) => typeof value === "string");
}

function isOptionalBuffer(value: unknown): boolean {
  return value === undefined || value instanceof ArrayBuffer;
}

function areBuffers(value: unknown): boolean {
  return Array.isArray(value) && value.every((item) => item instanceof ArrayBuffer);
}
