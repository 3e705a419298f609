// Takes the place of the page's worker in tests: the same envelopes (web/src/worker/protocol.ts), but what answers
// is a native Python behind the test's server; see native_core.py.
const address = new URL(`../native-core/${crypto.randomUUID()}`, self.location.href).href;

/** Each message leaves after the one before it has arrived. */
let sent = Promise.resolve();

self.addEventListener("message", ({ data }) => {
  if (data.kind === "start") void start(data);
  else sent = sent.then(() => send(data));
});

async function start({ lock, language = "en" }) {
  let isThere = () => {};
  sent = new Promise((resolve) => (isThere = resolve));
  // The page waits for the same lock: it gets it when this worker dies.
  await new Promise((resolve) => {
    void navigator.locks.request(lock, () => {
      resolve();
      return new Promise(() => {});
    });
  });
  self.postMessage({ kind: "alive" });
  const answer = await fetch(`${address}?language=${language}`);
  for await (const message of messages(answer.body.getReader())) {
    if (message.kind === "ready") isThere();
    if (message.kind === "fault") console.error(message.text);
    else self.postMessage(message, { transfer: message.buffers ?? [] });
  }
  self.postMessage({ kind: "crashed", message: "Python stopped" });
}

/** The length of a text, the text, which is JSON, and the bytes that go with it. */
function send({ buffer, ...message }) {
  const text = new TextEncoder().encode(JSON.stringify({ ...message, hasBuffer: buffer !== undefined }));
  const length = new Uint8Array(4);
  new DataView(length.buffer).setUint32(0, text.length);
  return fetch(address, { method: "POST", body: new Blob([length, text, ...(buffer === undefined ? [] : [buffer])]) });
}

async function* messages(reader) {
  const bytes = bytesOf(reader);
  for (;;) {
    const length = await bytes(4);
    if (length === undefined) return;
    const text = await bytes(new DataView(length.buffer).getUint32(0));
    const { sizes, ...message } = JSON.parse(new TextDecoder().decode(text));
    if (sizes === undefined) {
      yield message;
      continue;
    }
    const buffers = [];
    for (const size of sizes) buffers.push((await bytes(size)).buffer);
    yield { ...message, buffers };
  }
}

/** Gives the next so many bytes, in memory of their own; undefined at the end. */
function bytesOf(reader) {
  let rest = new Uint8Array(0);
  return async (count) => {
    const wanted = new Uint8Array(count);
    for (let filled = 0; filled < count; ) {
      if (rest.length === 0) {
        const { done, value } = await reader.read();
        if (done) return undefined;
        rest = value;
      }
      const part = rest.subarray(0, count - filled);
      wanted.set(part, filled);
      filled += part.length;
      rest = rest.subarray(part.length);
    }
    return wanted;
  };
}
