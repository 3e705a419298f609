// The calls that wait for an answer, by id.
import { decodeError, decodeProgress, decodeReply } from "../contract/decode";
import type { Reply } from "../contract/calls";
import type { Method, Progress } from "../contract/types";
import { readError } from "./errors";

/** A reply and the buffers that it names. */
export interface Answer<M extends Method> {
  reply: Reply<M>;
  buffers: ArrayBuffer[];
}

interface Waiting {
  answer(text: string, buffers: ArrayBuffer[]): void;
  progress(text: string): void;
  reject(reason: unknown): void;
}

/** Each call is entered once and leaves once: answered, failed, or given up. */
export class WaitingCalls {
  readonly #waiting = new Map<number, Waiting>();
  #lastId = 0;

  /** How many wait. */
  get count(): number {
    return this.#waiting.size;
  }

  /** Enter a call; its promise settles when one of the methods below is called with the id. */
  enter<M extends Method>(method: M, onProgress?: (progress: Progress) => void): [number, Promise<Answer<M>>] {
    const id = ++this.#lastId;
    const answer = new Promise<Answer<M>>((resolve, reject) => {
      this.#waiting.set(id, {
        answer: (text, buffers) => resolve({ reply: decodeReply(method, text), buffers }),
        progress: (text) => onProgress?.(decodeProgress(text)),
        reject,
      });
    });
    return [id, answer];
  }

  answer(id: number, text: string, buffers: ArrayBuffer[]): void {
    this.#leave(id, (call) => call.answer(text, buffers));
  }

  fail(id: number, text: string): void {
    this.#leave(id, (call) => call.reject(readError(decodeError(text))));
  }

  /** Answers to a call that was given up come too late and are dropped. */
  giveUp(id: number, reason: unknown): void {
    this.#leave(id, (call) => call.reject(reason));
  }

  giveUpAll(reason: unknown): void {
    for (const id of [...this.#waiting.keys()]) this.giveUp(id, reason);
  }

  progress(id: number, text: string): void {
    this.#waiting.get(id)?.progress(text);
  }

  /** A message that breaks the contract fails its call, which would wait without end otherwise. */
  #leave(id: number, settle: (call: Waiting) => void): void {
    const call = this.#waiting.get(id);
    if (call === undefined) return;
    this.#waiting.delete(id);
    try {
      settle(call);
    } catch (broken) {
      call.reject(broken);
    }
  }
}
