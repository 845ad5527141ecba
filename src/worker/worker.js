// Answers questions off the main thread, so that no frame waits for them. The first message brings the wasm, as bytes or as an
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
    self.postMessage({ response: answer(data.question) });
  } catch (error) {
    // Whatever broke down may have left its memory in any state: the page starts another worker.
    self.postMessage({ broken: String(error) });
  }
};
