// The second part of the page's wasm: what a first visit does not need. It is fetched when nobody waits for it, or at once
// when the first part calls into it earlier than that.
import { __wbg_get_imports, more } from "staywright";

/** The bytes at an address, while everything waits: a call from wasm cannot be put off. */
function now(address) {
  const request = new XMLHttpRequest();
  request.open("GET", address, false);
  // The only way to bytes that such a request has.
  request.overrideMimeType("text/plain; charset=x-user-defined");
  request.send();
  if (request.status !== 200) throw new Error(`${address}: ${request.status}`);
  return Uint8Array.from(request.responseText, (letter) => letter.charCodeAt(0));
}

/** The second part at `address`; `failed` is called when it is needed and cannot be had. */
export function second(address, failed) {
  let first;
  let fetched;

  /** Puts its functions in their places of the table that both parts share. */
  function join(module) {
    if (!first || !module || first.whole.value) return;
    new WebAssembly.Instance(module, { ...__wbg_get_imports(), first });
    first.whole.value = 1;
  }

  function wait() {
    try {
      join(new WebAssembly.Module(now(address)));
    } catch (error) {
      failed();
      throw error;
    }
  }

  const compiled = async () => WebAssembly.compileStreaming(fetch(address));

  more.rest = { wait };
  return {
    fetch: () => (fetched ??= compiled().catch(console.warn)),
    /** Takes what the first part exports, once that runs. */
    joins: (exports) => (first = exports),
    /** Resolves when it has joined the first part, or cannot be had for now. */
    async ready() {
      join(await this.fetch());
    },
  };
}
