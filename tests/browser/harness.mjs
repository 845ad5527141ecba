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
/** The parts of the frame, each with figures of its own. */
export const PARTS = ["Frame", "Wheel and hub", "Shell and seat tube", "Chainstays", "Seat stays", "Drive and brake"];

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

/** The page has started: what it shows stands, in Design with the drawing. */
export const ready = (page) =>
  page.waitForFunction(() => {
    const main = document.querySelector("#app .page main");
    return main && (!main.matches(".design") || main.querySelector(".stage svg[aria-label]"));
  });

/** Nothing went wrong in the page, and its context is closed. */
export async function fine(page) {
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
}

export const press = (page, name) => page.getByRole("button", { name, exact: true }).click();
export const field = (page, name) => page.getByRole("textbox", { name, exact: true });
export const group = (page, name) => page.getByRole("group", { name, exact: true });
export const unfold = (page, name) => page.locator("summary", { hasText: name }).first().click();

/** Goes to a place; whatever stands open over the foot of the page is closed first. */
export async function go(page, place) {
  await close(page);
  await page.getByRole("navigation", { name: "Places" }).getByRole("button", { name: place, exact: true }).click();
}

/** Selects a part in the place Design. */
export async function part(page, name) {
  await close(page);
  const chip = group(page, "Parts").getByRole("button", { name, exact: true });
  if (!(await chip.count())) await go(page, "Design");
  await chip.click();
  await page.locator(".part-figures").waitFor();
}

/** Looks at the parts from the side, or from above at a pair of stays. */
export async function view(page, name, pair) {
  await close(page);
  if (!(await group(page, "View").count())) await go(page, "Design");
  await group(page, "View").getByRole("button", { name, exact: true }).click();
  if (pair) await group(page, "Pair of stays").getByRole("button", { name: pair, exact: true }).click();
}

/** The stays from above, where handles are, with their figures. */
export async function stays(page, pair = "Chainstays") {
  await part(page, pair);
  await view(page, "Top");
}

/** The row of a figure, where the selected part or the shop has it; within a group of that name, if one is told. */
export function row(page, name, within) {
  const where = within ? group(page, within) : page;
  return where.locator(`button.figure-row[data-name="${name}"]`).filter({ visible: true }).first();
}

/** The row of a figure, looked for in what is open, then through the parts. */
export async function found(page, name, within) {
  const one = row(page, name, within);
  if (await one.count()) return one;
  for (const name of PARTS) {
    await part(page, name);
    if (await one.count()) return one;
  }
  throw new Error(`no part has the figure ${name}`);
}

/** The field of a text of the job, or of a figure, whose sheet is opened if it is not. */
export async function openFigure(page, name, within) {
  const box = field(page, name);
  if (!within && (await box.count())) return box;
  if (name === "Job name" || name === "Notes") {
    await job(page);
    return box;
  }
  await close(page);
  await (await found(page, name, within)).click();
  await box.waitFor();
  return box;
}

const dialog = (page) => page.getByRole("dialog");

/** Closes what stands open over the foot of the page, if anything does. */
export async function close(page) {
  const button = dialog(page).getByRole("button", { name: /^(Close|Done)$/ });
  if (await button.count()) await button.first().click();
  await dialog(page).waitFor({ state: "detached" });
}

async function opened(page, name, button) {
  const sheet = page.getByRole("dialog", { name, exact: true });
  if (!(await sheet.count())) {
    await close(page);
    await button.click();
    await sheet.waitFor();
  }
  return sheet;
}

/** Opens the sheet of the job: its name, its notes, other jobs, its link and file. */
export const job = (page) => opened(page, "Job", page.locator("button.bar-job"));
/** Opens the menu. */
export const menu = (page) => opened(page, "Menu", page.getByRole("button", { name: "Menu", exact: true }));

/** Chooses a radio button of the menu and closes it. */
export async function choose(page, name) {
  await (await menu(page)).getByRole("radio", { name, exact: true }).check({ force: true });
  await close(page);
}

export const undo = (page) => press(page, "Undo");
export async function redo(page) {
  await (await menu(page)).getByRole("button", { name: "Redo" }).click();
  await close(page);
}
export const canUndo = (page) => page.getByRole("button", { name: "Undo", exact: true }).isEnabled();
export async function canRedo(page) {
  const can = await (await menu(page)).getByRole("button", { name: "Redo" }).isEnabled();
  await close(page);
  return can;
}

/** Types a text into a field in place of what stands there, key by key; the field stays open. */
export async function type(page, name, text, within) {
  await (await openFigure(page, name, within)).click();
  await page.keyboard.press("Control+A");
  await page.keyboard.type(text);
}

/** What stands in the field of a figure or a text. */
export async function value(page, name, within) {
  if (name === "Job name" || name === "Notes") {
    const text = await (await openFigure(page, name)).inputValue();
    await close(page);
    return text;
  }
  const words = await (await found(page, name, within)).locator(".figure-value").evaluate((one) => one.firstChild.textContent);
  return words.trim();
}

/** Chooses a job to start from. */
export async function start(page, name) {
  await job(page);
  await unfold(page, "Start another job");
  await page.getByRole("dialog").getByRole("button", { name }).click();
}

/** The findings, unfolded from the line of status. */
export async function findings(page) {
  await close(page);
  const button = page.locator("button.status-button");
  if ((await button.getAttribute("aria-expanded")) !== "true") await button.click();
  return page.getByRole("list", { name: "Findings" });
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

/** Types a text and closes its sheet; the address that holds it. */
export async function enter(page, name, text, within) {
  const before = page.url();
  await type(page, name, text, within);
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
