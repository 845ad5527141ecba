// Starts the page, keeps it for use without a network, and asks before a new version takes over.
import init, { start } from "staywright";
import { client } from "./worker_client.js";

/* global BUILD, WASM, WORKER, WORKER_WASM: put in by the build. */

/** Says what went wrong and what to do. The text is only ever text. */
function trouble(words) {
  const box = document.getElementById("trouble");
  box.textContent = words;
  box.hidden = false;
}

window.staywrightAsk = client(async () => {
  const worker = new Worker(WORKER);
  worker.postMessage({ wasm: new URL(WORKER_WASM, location.href).href });
  return worker;
});

async function begin() {
  if (typeof WebAssembly !== "object") {
    return trouble("This browser has no WebAssembly, which works out the figures here. Open the page in a newer browser, or switch WebAssembly on (some phones switch it off in their strictest security mode).");
  }
  const page = document.querySelector('meta[name="build"]').content;
  if (page !== BUILD) {
    return trouble("Two versions of this page got mixed up. Reload it while there is a network; your job is in the address and stays.");
  }
  try {
    const wasm = init({ module_or_path: fetch(WASM) });
    // This script waits for nothing, so it may be done before the rest of the page has been read.
    if (document.readyState === "loading") await new Promise((then) => document.addEventListener("DOMContentLoaded", then));
    await wasm;
    start();
  } catch (error) {
    console.error(error);
    trouble("The page could not start: part of it is missing or was refused. Reload it once while there is a network; your job is in the address and stays.");
  }
}

/** Notes that this tab was told to take the new version; what was noted before. */
function asked(now) {
  try {
    const before = sessionStorage.getItem("staywright.update") !== null;
    if (now) sessionStorage.setItem("staywright.update", "");
    else sessionStorage.removeItem("staywright.update");
    return before;
  } catch {
    return false;
  }
}

/** A new set of files waits until the person says so. */
function offer(kept) {
  const bar = document.getElementById("update");
  bar.hidden = false;
  document.getElementById("update-later").onclick = () => (bar.hidden = true);
  const flush = () => window.dispatchEvent(new Event("staywright-flush"));
  const reload = () => {
    flush();
    asked(true);
    // A change of the address just before would call the reload off.
    setTimeout(() => location.reload(), 100);
  };
  // Nothing waits any more where it has taken over in another tab already.
  const take = () => (kept.waiting ? kept.waiting.postMessage("take over") : reload());
  document.getElementById("update-now").onclick = () => {
    flush();
    navigator.serviceWorker.addEventListener("controllerchange", reload);
    take();
    // The old worker may be kept busy by an answer that nobody reads; it lets go when this page does.
    setTimeout(reload, 1500);
  };
}

async function keep() {
  if (!("serviceWorker" in navigator)) return;
  try {
    // The name under which it has always been registered: a new one would leave old versions in place for ever.
    const kept = await navigator.serviceWorker.register("./worker.js", { updateViaCache: "none" });
    // The reload that was asked for may still have been answered by the old worker.
    if (asked(false)) {
      navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
      kept.waiting?.postMessage("take over");
    }
    const ready = () => kept.waiting && navigator.serviceWorker.controller && offer(kept);
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
