// Pictures of the page for the README: pkg-scripts/picture/.
import { mkdir } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { PHONE, WIDE, go, launch, open, serve } from "../../tests/browser/harness.mjs";

const folder = fileURLToPath(new URL("../picture/", import.meta.url));
await mkdir(folder, { recursive: true });
const browser = await launch();
const { server, address } = await serve();
for (const [name, options, place] of [["wide", WIDE, "Stays"], ["phone", PHONE, "Set-up"]]) {
  const page = await open(browser, address, options);
  await go(page, place);
  await page.waitForTimeout(300);
  await page.screenshot({ path: `${folder}${name}.png` });
}
await browser.close();
server.close();
