// The page as its user meets it: by role and label, with real keys and real touch.
import { test } from "node:test";
import assert from "node:assert/strict";
import { pathToFileURL } from "node:url";
import path from "node:path";
import { PHONE, PLACES, WIDE, axe, bench, close, drawn, enter, field, findings, fine, go, job, kept, linked, menu, open, openFigure, part, press, ready, redo, row, said, serve, stays, stop, type, undo, unfold, value, watch } from "./harness.mjs";
import { DIST } from "../../pkg-scripts/tools/serve.mjs";

const at = bench();

test("a figure typed at phone size is drawn, in mm, with a comma, in inches", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await type(page, "Chainstay length", "417,5");
  await drawn(page, "417.50 mm");
  await type(page, "Chainstay length", "16 1/2 in");
  await drawn(page, "419.10 mm");
  await page.getByText("16 1/2 in = 419.1 mm").waitFor();
  await fine(page);
});

test("the sheet of a figure says what it may be, steps it, leads on to the next, and gives the focus back", async () => {
  const page = await open(at.browser, at.address, PHONE);
  const box = await openFigure(page, "Chainstay length");
  const sheet = page.getByRole("dialog", { name: "Chainstay length" });
  await sheet.getByText("250 to 800 mm").waitFor();
  assert.ok(await box.evaluate((one) => one === document.activeElement));
  await sheet.getByRole("button", { name: "more Chainstay length" }).tap();
  await drawn(page, "chainstay length 430.50 mm");
  await sheet.getByRole("button", { name: "less Chainstay length" }).tap();
  await drawn(page, "chainstay length 430.00 mm");
  await sheet.getByRole("button", { name: "Next" }).tap();
  await page.getByRole("dialog", { name: "Bottom bracket drop" }).waitFor();
  await page.keyboard.press("Enter");
  await page.getByRole("dialog", { name: "Seat angle" }).waitFor();
  await page.keyboard.press("Escape");
  await page.getByRole("dialog").waitFor({ state: "detached" });
  await page.waitForFunction(() => document.activeElement.dataset.name === "Seat angle");
  await fine(page);
});

test("the sheet of a figure that goes with its bend closes", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await part(page, "Chainstays");
  await unfold(page, "Bends, butts, ovals");
  await press(page, "Add a bend");
  await openFigure(page, "Bend angle");
  await undo(page);
  await page.getByRole("dialog").waitFor({ state: "detached" });
  await fine(page);
});

test("a figure of either sign has a button for the sign", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await enter(page, "Front rise", "2.5");
  await openFigure(page, "Front rise");
  await page.getByRole("button", { name: "change sign of Front rise" }).tap();
  assert.equal(await value(page, "Front rise"), "-2.5");
  await openFigure(page, "Chainstay length");
  assert.equal(await page.getByRole("button", { name: /change sign/ }).count(), 0);
  await fine(page);
});

test("rubbish in three fields is named at each, and the last good drawing stays", async () => {
  const page = await open(at.browser, at.address);
  const before = await said(page);
  const rubbish = [["Chainstay length", "9999"], ["Bottom bracket drop", "NaN"], ["Shell diameter", "1e999"]];
  for (const [name, text] of rubbish) {
    await type(page, name, text);
    assert.equal(await field(page, name).getAttribute("aria-invalid"), "true", name);
    assert.equal(await field(page, name).inputValue(), text);
    assert.ok((await page.locator("#figure-fault").innerText()).length > 10, name);
  }
  await close(page);
  for (const [name, text] of rubbish) {
    assert.equal(await value(page, name), text);
    assert.match(await row(page, name).getAttribute("class"), /faulty/);
  }
  await part(page, "Frame");
  await row(page, "Chainstay length").getByText("250 to 800").waitFor();
  assert.equal(await said(page), before);
  await fine(page);
});

test("undo and redo by button", async () => {
  const page = await open(at.browser, at.address);
  await linked(page);
  await enter(page, "Chainstay length", "444");
  await undo(page);
  await drawn(page, "430.00 mm");
  await redo(page);
  await drawn(page, "444.00 mm");
  await fine(page);
});

test("the address carries the job into another browser, and a damaged one says so", async () => {
  const page = await open(at.browser, at.address);
  await linked(page);
  const link = await enter(page, "Bottom bracket drop", "63");
  const other = await open(at.browser, link, PHONE);
  assert.match(await said(other), /drop 63\.00 mm/);
  const damaged = await open(at.browser, link.slice(0, -2));
  assert.ok((await damaged.locator("body").innerText()).includes("part of it is missing or changed"));
});

test("a name that is markup is shown as text", async () => {
  const page = await open(at.browser, at.address);
  await linked(page);
  const link = await enter(page, "Job name", "<img src=x onerror=alert(1)>");
  const other = await open(at.browser, link);
  assert.ok((await other.locator("body").innerText()).includes("<img src=x onerror=alert(1)>"));
  assert.equal(await other.locator("#app img").count(), 0);
});

test("a handle is pulled by mouse and by arrow key", async () => {
  const page = await open(at.browser, at.address);
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
      const page = await open(at.browser, at.address, { ...options, colorScheme });
      for (const place of PLACES) {
        await go(page, place);
        assert.deepEqual(await axe(page), [], `${place} ${colorScheme}`);
        assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= options.viewport.width, `${place} scrolls sideways`);
      }
      const opened = { "the parts from above": stays, "a faulty figure": (page) => type(page, "Chainstay length", "abc"), "the job": job, "the menu": menu, "the findings": findings };
      for (const [what, show] of Object.entries(opened)) {
        await show(page);
        assert.deepEqual(await axe(page), [], `${what} ${colorScheme}`);
      }
      await fine(page);
    }
});

test("opened again with the server stopped, it works", async () => {
  const own = await serve();
  const page = await open(at.browser, own.address);
  await kept(page);
  await stop(own.server);
  await page.reload();
  await ready(page);
  await go(page, "Cut");
  assert.ok(await page.getByText("Right chainstay, front end").first().isVisible());
});

test("without its wasm the page says what to do", async () => {
  const context = await at.browser.newContext();
  const page = await context.newPage();
  await page.route("**/*.wasm", (route) => route.abort());
  await page.goto(at.address);
  await page.getByRole("alert").filter({ hasText: "could not start" }).waitFor();
});

test("the single file runs from disk and asks for nothing", async () => {
  const context = await at.browser.newContext();
  const page = await context.newPage();
  const asked = [];
  page.on("request", (request) => asked.push(request.url()));
  await page.goto(pathToFileURL(path.join(DIST, "staywright.html")).href);
  await page.locator("#app .page svg").first().waitFor();
  // What answers beside the page is made from the file's own text.
  assert.equal(asked.filter((url) => !/^(data|blob):/.test(url)).length, 1);
});

test("script that is put into the page does not run", async () => {
  const page = await open(at.browser, at.address);
  const ran = await page.evaluate(() => {
    const script = document.createElement("script");
    script.textContent = "window.ran = true";
    document.body.append(script);
    return window.ran === true;
  });
  assert.equal(ran, false);
});
