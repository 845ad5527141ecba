// Answers questions beside the page, so that no frame waits for them. The first message brings the wasm, as bytes or as an
// address; each later one a question.
import init, { answer } from "staywright-package";

let ready;

self.onmessage = async ({ data }) => {
  if (data.wasm) {
    ready = init({ module_or_path: data.wasm });
    return;
  }
  try {
    await ready;
    self.postMessage({ id: data.id, answer: answer(data.question) });
  } catch (error) {
    console.error(error);
    self.postMessage({ id: data.id, answer: new Uint8Array() });
  }
};
