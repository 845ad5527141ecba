// A browser that keeps nothing, or that has kept rubbish.
import { test } from "node:test";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { PHONE, PLACES, bench, enter, fine, go, linked, press, ready, value, watch } from "./harness.mjs";

const at = bench();
const KEYS = ["unit", "theme", "place", "pick", "mill", "limits", "fixture", "job", "records"];

/** A page whose store was treated so before it started. */
async function opened(treat, words) {
  const context = await at.browser.newContext(PHONE);
  await context.addInitScript(treat, words);
  const page = watch(await context.newPage(), at.address);
  page.setDefaultTimeout(8000);
  await page.goto(at.address);
  return page;
}

/** Everything that matters works, store or no store. */
async function works(page) {
  for (const place of PLACES) await go(page, place);
  await go(page, "Cut");
  await page.getByRole("checkbox").first().check();
  await page.getByText(/^1 of \d+ steps/).waitFor();
  await go(page, "Design");
  await linked(page);
  await enter(page, "Chainstay length", "444");
  await page.reload();
  await ready(page);
  await go(page, "Design");
  assert.equal(await value(page, "Chainstay length"), "444");
  await fine(page);
}

test("a store that is denied", async () => {
  const deny = () => Object.defineProperty(window, "localStorage", { get: () => { throw new DOMException("denied", "SecurityError"); } });
  await works(await opened(deny));
});

test("a store that is full", async () => {
  const full = () => { Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); }; };
  await works(await opened(full));
});

for (const [name, rubbish] of [["rubbish", "\u202e😀<b>{["], ["nothing", ""], ["brackets without end", "[".repeat(100_000)], ["a number out of range", "NaN 1e999"], ["a list of the wrong things", '[[1,{"ticks":{}}],["a",{"ticks":[1,null],"measured":[["b"]]}]]']])
  test(`a store that holds ${name}`, async () => {
    const fill = ([keys, rubbish]) => { if (!sessionStorage.filled) { sessionStorage.filled = 1; for (const key of keys) localStorage.setItem(`staywright.${key}`, rubbish); } };
    const page = await opened(fill, [KEYS, rubbish]);
    // A step that is not known opens the view at the mill at its first step; it can be closed.
    await page.getByText("Step 1 of").waitFor();
    await press(page, "Close");
    await works(page);
  });

/** Ticks of another version: whole, but of a later number. Made as src/page/session/kept says: version, data, CRC-32. */
const LATER = ".ZABcvEhA";

test("ticks of a later version are kept, offered as a file, and never written over", async () => {
  const page = await opened((text) => { if (!sessionStorage.filled) { sessionStorage.filled = 1; localStorage.setItem("staywright.records", text); } }, LATER);
  await ready(page);
  const bar = page.getByRole("status").filter({ hasText: "cannot read some of what is kept" });
  await bar.filter({ hasText: "ticks and readings" }).waitFor();
  await go(page, "Cut");
  await page.getByRole("checkbox").first().check();
  await page.getByText(/^1 of \d+ steps/).waitFor();
  await page.waitForFunction((text) => localStorage.getItem("staywright.records") !== text, LATER);
  await page.reload();
  await ready(page);
  await page.getByText(/^1 of \d+ steps/).waitFor();
  const [file] = await Promise.all([page.waitForEvent("download"), press(page, "Save it as a file")]);
  assert.equal(readFileSync(await file.path(), "utf8"), `records\t${LATER}\n`);
  await press(page, "Forget it");
  await bar.waitFor({ state: "hidden" });
  await page.reload();
  await ready(page);
  await page.getByText(/^1 of \d+ steps/).waitFor();
  assert.equal(await bar.count(), 0);
  await fine(page);
});

test("ticks that an earlier version kept are there, readings too", async () => {
  const golden = readFileSync(new URL("../golden/kept.tsv", import.meta.url), "utf8").match(/^records\t0\t(.*)$/m)[1];
  const page = await opened((text) => { if (!sessionStorage.filled) { sessionStorage.filled = 1; localStorage.setItem("staywright.records", text); } }, golden);
  await ready(page);
  await go(page, "Cut");
  await page.getByRole("checkbox").first().check();
  // Written in today's form, all that was there with it.
  await page.waitForFunction(() => localStorage.getItem("staywright.records").startsWith("."));
  const text = await page.evaluate(() => localStorage.getItem("staywright.records").slice(1));
  const bytes = Buffer.from(text, "base64url").toString("latin1");
  for (const part of ["cbf29ce484222325", "chainstays.right.front.cut", " 400,5 ", "af63dc4c8601ec8c"]) assert.ok(bytes.includes(part), part);
  assert.equal(await page.getByText("cannot read some of what is kept").count(), 0);
  await fine(page);
});

test("no store for pages without a network: the page works all the same", async () => {
  const none = () => { delete Navigator.prototype.serviceWorker; };
  await works(await opened(none));
});
