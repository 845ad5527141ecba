// Starts the page, keeps it for use without a network, and asks before a new version takes over.
import init, { start } from "staywright";
import { asker } from "./ask.js";
import { second } from "./rest.js";

/* global BUILD, WASM, REST, BESIDE, BESIDE_WASM: put in by the build. */

/** Says what went wrong and what to do. The text is only ever text. */
function trouble(words) {
  const box = document.getElementById("trouble");
  box.textContent = words;
  box.hidden = false;
}

const rest = second(REST, () => trouble("Part of the page has not arrived. Reload it while there is a network; your job is in the address and stays."));

// What is not there yet of the page itself comes first.
window.staywrightAsk = asker(async () => {
  await rest.ready();
  return [new Worker(BESIDE), new URL(BESIDE_WASM, location.href).href];
});

/** A job of one's own may need all of the page, a first visit only its first part. */
const known = document.documentElement.className === "known";

async function begin() {
  if (typeof WebAssembly !== "object") {
    return trouble("This browser has no WebAssembly, which works out the figures here. Open the page in a newer browser, or switch WebAssembly on (some phones switch it off in their strictest security mode).");
  }
  const page = document.querySelector('meta[name="build"]').content;
  if (page !== BUILD) {
    return trouble("Two versions of this page got mixed up. Reload it while there is a network; your job is in the address and stays.");
  }
  try {
    if (known) rest.fetch();
    rest.joins(await init({ module_or_path: fetch(WASM) }));
    if (known) await rest.ready();
    // This script waits for nothing, so it may be done before the rest of the page has been read.
    if (document.readyState === "loading") await new Promise((then) => document.addEventListener("DOMContentLoaded", then));
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
await rest.ready();
await keep();
