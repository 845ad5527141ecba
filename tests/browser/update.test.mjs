// A second build takes the place of the first while the page is open.
import { test } from "node:test";
import assert from "node:assert/strict";
import { cpSync, mkdtempSync, readFileSync, readdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { PHONE, another, bench, drawn, fine, kept, linked, open, press, ready, said, serve, stop, type, value } from "./harness.mjs";
import { DIST } from "../../pkg-scripts/tools/serve.mjs";

const at = bench();
const SECOND = "second000000";
const built = (page) => page.locator('meta[name="build"]').getAttribute("content");
const bar = (page) => page.getByRole("status").filter({ hasText: "A new version is ready" });

/** A server of a copy of the build, and `replace`, which puts a second build in its place. */
async function site(t) {
  const root = mkdtempSync(path.join(os.tmpdir(), "staywright-"));
  cpSync(DIST, root, { recursive: true });
  const { server, address } = await serve(0, root);
  t.after(async () => {
    await stop(server);
    rmSync(root, { recursive: true });
  });
  return { address, replace: () => replace(root) };
}

/** The same page under another build's name, its script and its wasm under names of their own. */
function replace(root) {
  const html = readFileSync(path.join(root, "index.html"), "utf8");
  const build = html.match(/name="build" content="(\w+)"/)[1];
  const hashed = readdirSync(root).filter((name) => /^staywright\.\w{12}\.(js|wasm)$/.test(name));
  const names = [[build, SECOND], ...hashed.map((name) => [name, name.replace(/\.\w{12}\./, `.${SECOND}.`)])];
  assert.equal(hashed.length, 2);
  for (const name of ["index.html", "worker.js", ...hashed.filter((name) => name.endsWith(".js"))]) {
    const file = path.join(root, name);
    writeFileSync(file, names.reduce((text, [from, to]) => text.replaceAll(from, to), readFileSync(file, "utf8")));
  }
  hashed.forEach((name) => renameSync(path.join(root, name), path.join(root, name.replace(/\.\w{12}\./, `.${SECOND}.`))));
}

/** A page that is kept, with a second build just put in place of its own. */
async function superseded(t) {
  const here = await site(t);
  const page = await open(at.browser, here.address, PHONE);
  await kept(page);
  const first = await built(page);
  here.replace();
  return { ...here, page, first };
}

const look = (page) => page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());

test("the page asks, and Later keeps going with the old version", async (t) => {
  const { page, first } = await superseded(t);
  await look(page);
  await bar(page).waitFor();
  assert.equal(await built(page), first);
  await press(page, "Later");
  await bar(page).waitFor({ state: "hidden" });
  await type(page, "Chainstay length", "417.5");
  await drawn(page, "417.50 mm");
  assert.deepEqual(await page.evaluate(() => caches.keys()), [first, SECOND]);
  await fine(page);
});

test("a page that is opened again is whole and old until it is told, and asks by itself", async (t) => {
  const { page, first } = await superseded(t);
  await page.reload();
  await ready(page);
  assert.equal(await built(page), first);
  await bar(page).waitFor();
  await page.reload();
  await bar(page).waitFor();
  assert.equal(await built(page), first);
  await fine(page);
});

test("Reload keeps a figure that was just typed, and every file is of the new set", async (t) => {
  const { page } = await superseded(t);
  await linked(page);
  await look(page);
  await bar(page).waitFor();
  const files = [];
  page.on("request", (request) => files.push(new URL(request.url()).pathname));
  await type(page, "Chainstay length", "417.5");
  await press(page, "Reload");
  await page.locator(`meta[content="${SECOND}"]`).waitFor({ state: "attached" });
  await ready(page);
  assert.match(await said(page), /chainstay length 417\.50 mm/);
  assert.equal(await value(page, "Chainstay length"), "417.5");
  assert.deepEqual(await page.evaluate(() => caches.keys()), [SECOND]);
  const hashed = files.filter((name) => /staywright\.[^/]*\.(js|wasm)$/.test(name));
  assert.ok(hashed.length >= 2 && hashed.every((name) => name.includes(SECOND)), hashed.join());
  assert.ok(await bar(page).isHidden());
  await fine(page);
});

test("Reload keeps a text that is not a figure yet", async (t) => {
  const { page } = await superseded(t);
  await look(page);
  await type(page, "Chainstay length", "41");
  await press(page, "Reload");
  await page.locator(`meta[content="${SECOND}"]`).waitFor({ state: "attached" });
  await ready(page);
  assert.equal(await value(page, "Chainstay length"), "41");
});

test("Reload works in a second tab after the first has taken the new version", async (t) => {
  const { page, address } = await superseded(t);
  const other = await another(page.context(), address);
  await look(page);
  await bar(page).waitFor();
  await bar(other).waitFor();
  await press(page, "Reload");
  await page.locator(`meta[content="${SECOND}"]`).waitFor({ state: "attached" });
  await press(other, "Reload");
  await other.locator(`meta[content="${SECOND}"]`).waitFor({ state: "attached" });
  await ready(other);
  assert.deepEqual(other.wrongs, []);
  await fine(page);
});
