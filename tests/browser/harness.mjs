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
export const PLACES = ["Design", "Cut", "Check", "Shop"];

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
  page.setDefaultTimeout(15000);
  await page.goto(address);
  await there(page);
  return page;
}

/** The page stands, and what a first visit is told has been read. */
export async function ready(page) {
  await page.locator("#app .page :is(.places, .mill)").waitFor();
  if (await page.locator("main.at-design").isVisible()) await page.locator("#app .page svg").first().waitFor();
  const plain = page.getByRole("button", { name: "Start from plain figures" });
  if (await plain.isVisible()) await plain.click();
}

/** Nothing went wrong in the page, and its context is closed. */
export async function fine(page) {
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
}

export const go = (page, place) => page.getByRole("navigation", { name: "Places" }).getByRole("button", { name: place, exact: true }).click();
export async function press(page, name) {
  if (name === "Undo") await close(page);
  await page.getByRole("button", { name, exact: true }).click();
}
export const field = (page, name) => page.getByRole("textbox", { name, exact: true });

/** Closes what stands open over the foot of the page. */
export async function close(page) {
  for (const name of ["Close", "Done"]) {
    const button = page.getByRole("dialog").getByRole("button", { name, exact: true });
    if (await button.isVisible()) await button.click();
  }
}

/** Selects a part of the frame. */
export async function part(page, name) {
  await close(page);
  await page.getByRole("group", { name: "Parts" }).getByRole("button", { name, exact: true }).click();
}

/** The stays of that name from above, their figures below. */
export async function stays(page, name = "Chainstays") {
  await close(page);
  await go(page, "Design");
  await part(page, name);
  await press(page, "Top");
}

/** Opens the job's dialog. */
export async function job(page) {
  if (await page.getByRole("dialog", { name: "Job" }).isVisible()) return;
  await close(page);
  await page.locator(".bar-job").click();
  await page.getByRole("dialog", { name: "Job" }).waitFor();
}

/** Chooses in the menu. */
export async function menu(page, name) {
  await close(page);
  await press(page, "Menu");
  await page.getByRole("dialog", { name: "Menu" }).getByRole("radio", { name, exact: true }).check({ force: true });
  await close(page);
}

/** All steps of the pair that is looked at, unfolded. */
export async function steps(page) {
  await close(page);
  await go(page, "Cut");
  const box = page.locator("details", { has: page.locator("summary", { hasText: "All steps" }) });
  if (!(await box.evaluate((one) => one.open))) await box.locator("summary").first().click();
}

/** Opens the view at the mill. */
export async function mill(page) {
  await close(page);
  await go(page, "Cut");
  await press(page, "Start at the mill");
}

/** Brings again what was undone. */
export async function redo(page) {
  await close(page);
  await press(page, "Menu");
  await press(page, "Redo");
  await close(page);
}

const row = (page, name, within = page.locator("main")) => within.locator(`button.figure-row[data-name="${name}"]`).first();

/** The row of a figure, of the part that it belongs to; `within` narrows where it is looked for. */
export async function figureRow(page, name, within) {
  const wanted = row(page, name, within);
  if (await wanted.isVisible()) return wanted;
  await close(page);
  for (const chip of await page.getByRole("group", { name: "Parts" }).getByRole("button").all()) {
    if (await wanted.isVisible()) break;
    await chip.click();
  }
  return wanted;
}

/** Texts that stand in the job's dialog. */
const OF_THE_JOB = ["Job name", "Notes", "Open a link"];

/** The field of a figure or of a text of the job, its sheet open. */
export async function figure(page, name, within) {
  if (OF_THE_JOB.includes(name)) {
    await job(page);
    return field(page, name);
  }
  const sheet = page.getByRole("dialog", { name, exact: true });
  if (within || !(await sheet.isVisible())) {
    const wanted = await figureRow(page, name, within);
    await close(page);
    await wanted.click();
  }
  return sheet.getByRole("textbox");
}

/** What a figure's row shows. */
export const shown = async (page, name, within) =>
  (await (await figureRow(page, name, within)).locator(".figure-value").evaluate((one) => one.firstChild.data)).trim();

/** Types a text into a figure's field in place of what stands there, key by key. */
export async function type(page, name, text, within) {
  const box = await figure(page, name, within);
  await box.focus();
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

/** Types a figure and closes its sheet; the address that holds it. */
export async function enter(page, name, text) {
  const before = page.url();
  await type(page, name, text);
  await close(page);
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
