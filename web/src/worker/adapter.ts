// The worker's view of pycore/bridge/adapter.py: functions over JSON text and buffers.

/** The outcome of one step of a call. */
export type Step =
  { kind: "progress" | "error"; text: string } | { kind: "result"; text: string; buffers: ArrayBuffer[] };

/** The functions of the Python module. */
export interface Adapter {
  /** Begin a call and give it a number; nothing is computed yet. */
  begin(method: string, params: string, buffer?: Uint8Array): number;
  /** Compute up to the next progress message, or to the end. */
  step(handle: number): Step;
  /** Release a call, finished or not. */
  end(handle: number): void;
  /** Say everything from here on in another language, given by its tag of BCP 47. */
  speak(language: string): void;
}

/** The functions that run calls. */
export type CallAdapter = Omit<Adapter, "speak">;

/** Whether a Python module is the adapter. */
export function isAdapter(module: unknown): module is Adapter {
  return (
    typeof module === "object" &&
    module !== null &&
    "begin" in module &&
    typeof module.begin === "function" &&
    "step" in module &&
    typeof module.step === "function" &&
    "end" in module &&
    typeof module.end === "function" &&
    "speak" in module &&
    typeof module.speak === "function"
  );
}
