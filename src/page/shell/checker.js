// Answers questions about errors and finished stays beside the page, so that no frame waits for them. The first message
// brings the wasm, as bytes or as an address; each later one a question.
import init, { check, worked } from "staywright-package";

let ready;

self.onmessage = async ({ data }) => {
  if (data.wasm) {
    ready = init({ module_or_path: data.wasm });
    return;
  }
  try {
    await ready;
    self.postMessage({ id: data.id, text: data.question === "worked" ? worked() : check(data.question) });
  } catch (error) {
    console.error(error);
    self.postMessage({ id: data.id, text: "" });
  }
};
