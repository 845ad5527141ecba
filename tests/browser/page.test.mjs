// The page as its user meets it: by role and label, with real keys and real touch.
import { after, before, test } from "node:test";
import assert from "node:assert/strict";
import { pathToFileURL } from "node:url";
import path from "node:path";
import { PHONE, PLACES, WIDE, another, axe, close, drawn, figure, go, job, kept, launch, open, part, press, redo, serve, shown, stays, type } from "./harness.mjs";
import { DIST } from "../../pkg-scripts/tools/serve.mjs";

let browser, server, address;
before(async () => {
  browser = await launch();
  ({ server, address } = await serve());
});
after(async () => {
  await browser.close();
  server.close();
});

const side = (page) => page.locator("figure.drawing svg").first().getAttribute("aria-label");

test("a figure typed at phone size is drawn, in mm, with a comma, in inches", async () => {
  const page = await open(browser, address, PHONE);
  await type(page, "Chainstay length", "417,5");
  await page.waitForFunction(() => document.querySelector("figure.drawing svg").getAttribute("aria-label").includes("417.50 mm"));
  await type(page, "Chainstay length", "16 1/2 in");
  await page.waitForFunction(() => document.querySelector("figure.drawing svg").getAttribute("aria-label").includes("419.10 mm"));
  assert.deepEqual(page.wrongs, []);
});

test("rubbish in three fields is named at each, and the last good drawing stays", async () => {
  const page = await open(browser, address);
  const kept = await side(page);
  for (const [name, text] of [["Chainstay length", "9999"], ["Bottom bracket drop", "NaN"], ["Shell diameter", "1e999"]]) {
    await type(page, name, text);
    assert.equal(await (await figure(page, name)).getAttribute("aria-invalid"), "true", name);
    assert.equal(await (await figure(page, name)).inputValue(), text);
    await close(page);
    assert.equal(await shown(page, name), text);
  }
  await part(page, "Frame");
  assert.ok((await page.locator("main").innerText()).includes("250 to 800"));
  assert.equal(await side(page), kept);
});

test("undo and redo by button", async () => {
  const page = await open(browser, address);
  await type(page, "Chainstay length", "444");
  await page.keyboard.press("Tab");
  await page.waitForTimeout(700);
  await press(page, "Undo");
  await page.waitForFunction(() => document.querySelector("figure.drawing svg").getAttribute("aria-label").includes("430.00 mm"));
  await redo(page);
  await page.waitForFunction(() => document.querySelector("figure.drawing svg").getAttribute("aria-label").includes("444.00 mm"));
});

test("the address carries the job into another browser, and a damaged one says so", async () => {
  const page = await open(browser, address);
  await type(page, "Bottom bracket drop", "63");
  await page.keyboard.press("Tab");
  await page.waitForFunction(() => location.hash.length > 10);
  await page.waitForTimeout(700);
  const link = page.url();
  const other = await open(browser, link, PHONE);
  assert.match(await side(other), /drop 63\.00 mm/);
  const damaged = await open(browser, link.slice(0, -2));
  assert.ok((await damaged.locator("body").innerText()).includes("part of it is missing or changed"));
});

test("a name that is markup is shown as text", async () => {
  const page = await open(browser, address);
  await type(page, "Job name", "<img src=x onerror=alert(1)>");
  await close(page);
  await page.waitForTimeout(700);
  const other = await open(browser, page.url());
  assert.ok((await other.locator("body").innerText()).includes("<img src=x onerror=alert(1)>"));
  assert.equal(await other.locator("#app img").count(), 0);
});

test("a handle is pulled by mouse and by arrow key", async () => {
  const page = await open(browser, address);
  await stays(page);
  const handle = page.getByRole("slider", { name: "right rear half spacing" });
  const before = Number(await handle.getAttribute("aria-valuenow"));
  const box = await handle.locator(".knob").boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y - 12, { steps: 4 });
  await page.mouse.up();
  await page.waitForFunction((old) => Number([...document.querySelectorAll("[role=slider]")].find((s) => s.getAttribute("aria-label") === "right rear half spacing").getAttribute("aria-valuenow")) < old - 1, before);
  const after = Number(await handle.getAttribute("aria-valuenow"));
  await handle.focus();
  await page.keyboard.press("ArrowUp");
  await page.waitForFunction((old) => Number([...document.querySelectorAll("[role=slider]")].find((s) => s.getAttribute("aria-label") === "right rear half spacing").getAttribute("aria-valuenow")) > old, after);
});

test("no place has an accessibility fault, in light and dark, small and wide", async () => {
  for (const options of [PHONE, WIDE])
    for (const colorScheme of ["light", "dark"]) {
      const page = await open(browser, address, { ...options, colorScheme });
      for (const place of PLACES) {
        await go(page, place);
        assert.deepEqual(await axe(page), [], `${place} ${colorScheme}`);
        assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= options.viewport.width, `${place} scrolls sideways`);
      }
    }
});

test("opened again with the server stopped, it works", async () => {
  const own = await serve();
  const page = await open(browser, own.address);
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(() => navigator.serviceWorker.controller);
  own.server.closeAllConnections();
  await new Promise((done) => own.server.close(done));
  await page.reload();
  await page.locator("#app .page svg").first().waitFor();
  await go(page, "Cut");
  await page.getByText("Chainstays, front ends").first().waitFor();
  assert.ok(await page.getByText("Chainstays, front ends").first().isVisible());
});

test("without its wasm the page says what to do", async () => {
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.route("**/*.wasm", (route) => route.abort());
  await page.goto(address);
  await page.getByRole("alert").filter({ hasText: "could not start" }).waitFor();
});

test("the single file runs from disk and asks for nothing", async () => {
  const context = await browser.newContext();
  const page = await context.newPage();
  const asked = [];
  page.on("request", (request) => asked.push(request.url()));
  await page.goto(pathToFileURL(path.join(DIST, "staywright.html")).href);
  await page.locator("#app .page svg").first().waitFor();
  // What answers beside the page is made from the file's own text.
  assert.equal(asked.filter((url) => !/^(data|blob):/.test(url)).length, 1);
});

test("script that is put into the page does not run", async () => {
  const page = await open(browser, address);
  const ran = await page.evaluate(() => {
    const script = document.createElement("script");
    script.textContent = "window.ran = true";
    document.body.append(script);
    return window.ran === true;
  });
  assert.equal(ran, false);
});
