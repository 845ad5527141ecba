// A browser, a server of dist/, and a page in it.
import { after, before } from "node:test";
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { execSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { serve } from "../../pkg-scripts/tools/serve.mjs";

const tools = createRequire(new URL("../../pkg-scripts/package.json", import.meta.url));
const { chromium } = tools("playwright-core");
const AXE = readFileSync(tools.resolve("axe-core/axe.min.js"), "utf8");

export const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
export const WIDE = { viewport: { width: 1440, height: 900 } };
export const PLACES = ["Frame", "Stays", "Cuts", "Set-up", "Check"];

export const launch = () =>
  chromium.launch({
    executablePath: execSync("command -v chromium", { encoding: "utf8" }).trim(),
    args: ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
  });

/** A browser and a server of dist/ for the tests of one file: `browser` and `address`, once the tests run. */
export function bench() {
  const at = {};
  before(async () => Object.assign(at, { browser: await launch() }, await serve()));
  after(async () => {
    await at.browser.close();
    at.server.close();
  });
  return at;
}

/** Gathers in `page.wrongs` what goes wrong in a page, and every request that leaves its server. */
export function watch(page, address) {
  page.wrongs = [];
  page.on("pageerror", (error) => page.wrongs.push(error.message));
  page.on("console", (message) => message.type() === "error" && page.wrongs.push(message.text()));
  page.on("request", (request) => {
    const url = request.url();
    if (!url.startsWith(new URL(address).origin) && !/^(data|blob):/.test(url)) page.wrongs.push(`asked for ${url}`);
  });
  return page;
}

/** A page in a context of its own. */
export async function open(browser, address, options = WIDE) {
  const context = await browser.newContext(options);
  return another(context, address);
}

/** One more page in a context, once it is `there`. */
export async function another(context, address, there = ready) {
  const page = watch(await context.newPage(), address);
  page.setDefaultTimeout(20000);
  await page.goto(address);
  await there(page);
  return page;
}

export const ready = (page) => page.locator("#app .page svg").first().waitFor();

/** Nothing went wrong in the page, and its context is closed. */
export async function fine(page) {
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
}

export const go = (page, place) => page.getByRole("navigation", { name: "Places" }).getByRole("button", { name: place }).click();
export const press = (page, name) => page.getByRole("button", { name, exact: true }).click();
export const field = (page, name) => page.getByRole("textbox", { name, exact: true });

/** Types a text into a field in place of what stands there, key by key. */
export async function type(page, name, text) {
  await field(page, name).click();
  await page.keyboard.press("Control+A");
  await page.keyboard.type(text);
}

/** What the first drawing says to those who cannot see it. */
export const said = (page) => page.locator("figure.drawing svg").first().getAttribute("aria-label");

/** Waits until the first drawing says `words`. */
export const drawn = (page, words) =>
  page.waitForFunction((words) => document.querySelector("figure.drawing svg")?.getAttribute("aria-label")?.includes(words), words);

/** The page's address once what was entered has settled in it: it differs from `before`. */
export async function settled(page, before) {
  await page.waitForFunction((before) => location.href !== before, before);
  return page.url();
}

/** Types a text and leaves the field; the address that holds it. */
export async function enter(page, name, text) {
  const before = page.url();
  await type(page, name, text);
  await page.keyboard.press("Tab");
  return settled(page, before);
}

/** The address once it holds a job. */
export async function linked(page) {
  await page.waitForFunction(() => location.hash.length > 10);
  return page.url();
}

/** The page is kept for use without a network. */
export const kept = (page) => page.waitForFunction(() => navigator.serviceWorker.controller);

export async function stop(server) {
  server.closeAllConnections();
  await new Promise((done) => server.close(done));
}

/** What axe finds wrong. */
export async function axe(page) {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate(() => window.axe.run());
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 120)}`);
}

export { serve };
