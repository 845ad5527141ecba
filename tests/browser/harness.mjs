// A browser, a server of dist/, and a page in it.
import { createRequire } from "node:module";
import { execSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { serve } from "../../pkg-scripts/tools/serve.mjs";

const tools = createRequire(new URL("../../pkg-scripts/package.json", import.meta.url));
const { chromium } = tools("playwright-core");
const AXE = readFileSync(tools.resolve("axe-core/axe.min.js"), "utf8");

export const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
export const WIDE = { viewport: { width: 1440, height: 900 } };

export const launch = () =>
  chromium.launch({
    executablePath: execSync("command -v chromium", { encoding: "utf8" }).trim(),
    args: ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
  });

/** A page in a context of its own; what goes wrong in it is gathered in `page.wrongs`. */
export async function open(browser, address, options = WIDE) {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  page.wrongs = [];
  page.on("pageerror", (error) => page.wrongs.push(error.message));
  page.on("console", (message) => message.type() === "error" && page.wrongs.push(message.text()));
  await page.goto(address);
  await page.locator("#app svg").first().waitFor();
  return page;
}

export const go = (page, place) => page.getByRole("navigation", { name: "Places" }).getByRole("button", { name: place }).click();

/** What axe finds wrong. */
export async function axe(page) {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate(() => window.axe.run());
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 120)}`);
}

export { serve };
