// Starts the single file: its own wasm, unpacked from the text beside it.
import init, { start } from "staywright";
import { client } from "./worker_client.js";

/** What the text of an element holds, packed. */
function unpacked(id) {
  const packed = Uint8Array.from(atob(document.getElementById(id).textContent), (letter) => letter.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(stream);
}

window.staywrightAsk = client(async () => {
  const script = new Blob([await unpacked("worker").text()], { type: "text/javascript" });
  const worker = new Worker(URL.createObjectURL(script));
  worker.postMessage({ wasm: await unpacked("worker-wasm").arrayBuffer() });
  return worker;
});

(async () => {
  const trouble = (words) => {
    const box = document.getElementById("trouble");
    box.textContent = words;
    box.hidden = false;
  };
  if (typeof WebAssembly !== "object" || typeof DecompressionStream !== "function") {
    return trouble("This browser is too old for this file, or WebAssembly is switched off in it. Open the file in a newer browser.");
  }
  try {
    await init({ module_or_path: await unpacked("wasm").arrayBuffer() });
    start();
  } catch (error) {
    console.error(error);
    trouble("The page could not start. The file may be damaged: copy it again from where it came.");
  }
})();
