// Starts the single file: its own wasm, unpacked from the text beside it.
import init, { start } from "staywright";

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
    const packed = Uint8Array.from(atob(document.getElementById("wasm").textContent), (letter) => letter.charCodeAt(0));
    const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
    await init({ module_or_path: await new Response(stream).arrayBuffer() });
    start();
  } catch (error) {
    console.error(error);
    trouble("The page could not start. The file may be damaged: copy it again from where it came.");
  }
})();
