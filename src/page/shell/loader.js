// Starts the page, keeps it for use without a network, and asks before a new version takes over.
import init, { start } from "staywright";
import { asker } from "./ask.js";

/* global BUILD, WASM, CHECKER, CHECKER_WASM: put in by the build. */

window.staywrightAsk = asker(async () => [new Worker(CHECKER), new URL(CHECKER_WASM, location.href).href]);

/** Says what went wrong and what to do. The text is only ever text. */
function trouble(words) {
  const box = document.getElementById("trouble");
  box.textContent = words;
  box.hidden = false;
}

async function begin() {
  if (typeof WebAssembly !== "object") {
    return trouble("This browser has no WebAssembly, which works out the figures here. Open the page in a newer browser, or switch WebAssembly on (some phones switch it off in their strictest security mode).");
  }
  const page = document.querySelector('meta[name="build"]').content;
  if (page !== BUILD) {
    return trouble("Two versions of this page got mixed up. Reload it while there is a network; your job is in the address and stays.");
  }
  try {
    await init({ module_or_path: fetch(WASM) });
    // This script waits for nothing, so it may be done before the rest of the page has been read.
    if (document.readyState === "loading") await new Promise((then) => document.addEventListener("DOMContentLoaded", then));
    start();
  } catch (error) {
    console.error(error);
    trouble("The page could not start: part of it is missing or was refused. Reload it once while there is a network; your job is in the address and stays.");
  }
}

/** A new set of files that waits until the person says so. */
function offer(waiting) {
  const bar = document.getElementById("update");
  bar.hidden = false;
  document.getElementById("update-later").onclick = () => (bar.hidden = true);
  const reload = () => {
    window.dispatchEvent(new Event("staywright-flush"));
    location.reload();
  };
  document.getElementById("update-now").onclick = () => {
    // It may have taken over in another tab already.
    if (waiting.state !== "installed") return reload();
    navigator.serviceWorker.addEventListener("controllerchange", reload);
    waiting.postMessage("take over");
  };
}

async function keep() {
  if (!("serviceWorker" in navigator)) return;
  try {
    const kept = await navigator.serviceWorker.register("./worker.js", { updateViaCache: "none" });
    const ready = () => kept.waiting && navigator.serviceWorker.controller && offer(kept.waiting);
    ready();
    kept.addEventListener("updatefound", () => kept.installing?.addEventListener("statechange", ready));
  } catch (error) {
    // Without a store the page still works, only not without a network.
    console.warn(error);
  }
}

/** The first drawing comes first: what keeps the page for later waits until nothing else is to be done. */
const idle = () => new Promise((then) => (window.requestIdleCallback ?? setTimeout)(then));

await begin();
await idle();
await keep();
