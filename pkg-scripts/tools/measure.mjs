// Measures: a plan native, in wasm and beside the CAD kernel; size of the download, input to paint and first drawing on a
// slowed phone.
import { execFileSync } from "node:child_process";
import { readFileSync, readdirSync } from "node:fs";
import { brotliCompressSync, constants } from "node:zlib";
import os from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { DIST } from "./serve.mjs";
import { PHONE, go, launch, open, serve } from "../../tests/browser/harness.mjs";

const packed = new URL("../../target/package/", import.meta.url);
const root = (file) => fileURLToPath(new URL(`../../${file}`, import.meta.url));
const job = readFileSync(root("tests/bench/eight_copes.json"));
/** Bent stays with all that they must clear. */
const bent = root("tests/bench/bent_all_round.json");
const rows = [];
const at = (list, share) => [...list].sort((a, b) => a - b)[Math.floor(share * (list.length - 1))];

/** The milliseconds that a command prints when it is given a job. */
const told = (input, command, ...rest) => Number(execFileSync(command, rest, { input, stdio: ["pipe", "pipe", "inherit"] }));

function plans() {
  const { NATIVE, WASM, PYTHON } = process.env;
  const inWasm = (input) => told(input, process.execPath, "--no-warnings", root("pkg-scripts/tools/wasi.mjs"), WASM);
  const [native, wasm] = [told(job, NATIVE), inWasm(job)];
  const kernel = told(job, PYTHON, root("tests/kernel/bench.py"));
  rows.push(["Plan with eight copes at 1°, native, median", `${native.toFixed(2)} ms`]);
  rows.push(["The same in wasm (Node), median", `${wasm.toFixed(2)} ms`]);
  rows.push(["The same eight cuts by the CAD kernel, median", `${kernel.toFixed(0)} ms: ${(kernel / native).toFixed(0)} plans`]);
  rows.push(["Plan of bent stays and every room about them, in wasm (Node), median", `${inWasm(readFileSync(bent)).toFixed(2)} ms`]);
}

async function json() {
  const { initSync, plan } = await import(new URL("staywright.js", packed));
  initSync({ module: readFileSync(new URL("staywright_bg.wasm", packed)) });
  const text = job.toString();
  const times = [];
  for (let i = 0; i < 600; i++) {
    const began = performance.now();
    plan(text);
    if (i >= 100) times.push(performance.now() - began);
  }
  rows.push(["The eight copes by the JavaScript package, JSON to JSON, median", `${at(times, 0.5).toFixed(2)} ms`]);
}

function sizes() {
  const size = (name) =>
    brotliCompressSync(readFileSync(path.join(DIST, name)), { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } }).length;
  const of = (wanted) => `${(readdirSync(DIST).filter(wanted).reduce((sum, name) => sum + size(name), 0) / 1000).toFixed(0)} kB`;
  const later = (name) => /^answers\./.test(name);
  const first = (name) => !later(name) && !["staywright.html", "icon-512.png", "icon-192.png"].includes(name);
  const wasm = (name) => first(name) && name.endsWith(".wasm");
  rows.push(["Download for first use (without the installed app's icons), brotli", `${of(first)}, of which wasm ${of(wasm)}`]);
  rows.push(["The worker, fetched when nobody waits, brotli", of((name) => name.startsWith("answers."))]);
}

async function slowed(page) {
  const session = await page.context().newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: 4 });
  return session;
}

/** From each key to the frame after the change has been painted. */
async function keys(browser, address) {
  const page = await open(browser, address, PHONE);
  await slowed(page);
  await page.evaluate(() => {
    window.times = [];
    addEventListener("keydown", () => {
      const began = performance.now();
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => window.times.push(performance.now() - began);
        port2.postMessage(0);
      });
    }, true);
  });
  await page.getByRole("textbox", { name: "Chainstay length", exact: true }).click();
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press(i % 2 ? String(i % 10) : "Backspace");
    await page.waitForTimeout(60);
  }
  rows.push(["Key to paint, 390 × 844, 4× slowed, 95th percentile", `${at(await page.evaluate(() => window.times), 0.95).toFixed(0)} ms`]);
  await page.context().close();
}

/** From frame to frame while a finger rolls a bent tube with all that it must clear about it. */
async function drag(browser, address) {
  const page = await open(browser, address, PHONE);
  await page.locator('input[type=file][accept*="json"]').first().setInputFiles(bent);
  await go(page, "Stays");
  await page.locator(".tightest").waitFor();
  await page.waitForTimeout(1500);
  const handle = page.getByRole("slider", { name: "right roll about the chord" });
  await handle.scrollIntoViewIfNeeded();
  const { x, y, width, height } = await handle.locator(".knob").boundingBox();
  const devtools = await slowed(page);
  const finger = (type, up) => devtools.send("Input.dispatchTouchEvent", { type, touchPoints: [{ x: x + width / 2, y: y + height / 2 - up }] });
  await finger("touchStart", 0);
  await page.evaluate(() => {
    window.frames = [];
    const note = (last) => requestAnimationFrame((now) => (window.frames.push(now - last), note(now)));
    requestAnimationFrame(note);
  });
  for (let i = 1; i <= 180; i++) {
    // The next move comes when it comes, whether or not the page has kept up.
    void finger("touchMove", 8 * Math.sin(i / 12));
    await new Promise((then) => setTimeout(then, 16));
  }
  const frames = await page.evaluate(() => window.frames.slice(5));
  const late = frames.filter((frame) => frame > 25).length;
  rows.push(["A bent tube rolled by its handle, all surroundings, 4× slowed: frame to frame, median and 95th percentile", `${at(frames, 0.5).toFixed(1)} and ${at(frames, 0.95).toFixed(1)} ms; ${late} of ${frames.length} came late`]);
  await page.context().close();
}

/** From the request to the frame that shows the first drawing. The page itself notes the time: nobody asks it meanwhile. */
async function first(browser, address) {
  const times = [];
  for (let i = 0; i < 9; i++) {
    const context = await browser.newContext(PHONE);
    const page = await context.newPage();
    await slowed(page);
    await page.addInitScript(() => {
      const times = (window.drawn = {});
      const watch = new MutationObserver(() => {
        const note = (what, seen) => {
          if (what in times || !document.querySelector(seen)) return;
          times[what] = 0;
          requestAnimationFrame(() => {
            const { port1, port2 } = new MessageChannel();
            port1.onmessage = () => (times[what] = performance.now());
            port2.postMessage(0);
          });
        };
        note("first", "#app svg path");
        note("live", "#app .page svg path");
      });
      watch.observe(document, { subtree: true, childList: true });
    });
    await page.goto(address, { waitUntil: "commit" });
    await page.waitForTimeout(2500);
    times.push(await page.evaluate(() => window.drawn));
    await context.close();
  }
  const median = (what) => `${at(times.map((one) => one[what]), 0.5).toFixed(0)} ms`;
  rows.push(["First drawing of a first visit, 390 × 844, 4× slowed, median of 9", median("first")]);
  rows.push(["The same, once it follows every key", median("live")]);
}

plans();
await json();
sizes();
const browser = await launch();
const { server, address } = await serve();
await keys(browser, address);
await drag(browser, address);
await first(browser, address);
await browser.close();
server.close();
console.log(`| measured ${new Date().toISOString().slice(0, 10)}, ${os.cpus().length} cores of ${os.cpus()[0].model.trim()} | |\n|---|---|`);
for (const [what, value] of rows) console.log(`| ${what} | ${value} |`);
