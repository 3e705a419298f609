// Failures of a start that Pyodide does not report: it only warns when its program cannot be compiled or fetched, and
// waits on; a fatal error of Python may end in a rejection that nobody awaits.

/** Start something, and reject where the start fails in a way that it does not report itself. */
export async function reportingFailures<T>(start: () => Promise<T>): Promise<T> {
  const { instantiate, instantiateStreaming } = WebAssembly;
  let fail: (reason: unknown) => void = () => {};
  const failed = new Promise<never>((_resolve, reject) => {
    fail = reject;
  });
  const told =
    <A extends unknown[], R>(work: (...given: A) => Promise<R>) =>
    async (...given: A): Promise<R> => {
      try {
        return await work(...given);
      } catch (reason) {
        fail(reason);
        throw reason;
      }
    };
  const onRejection = (event: PromiseRejectionEvent): void => fail(event.reason);
  Object.assign(WebAssembly, {
    instantiate: told(instantiate.bind(WebAssembly)),
    instantiateStreaming: told(instantiateStreaming.bind(WebAssembly)),
  });
  addEventListener("unhandledrejection", onRejection);
  try {
    return await Promise.race([start(), failed]);
  } finally {
    removeEventListener("unhandledrejection", onRejection);
    Object.assign(WebAssembly, { instantiate, instantiateStreaming });
  }
}
