// Back and forward, reload, and more than one tab.
import { test } from "node:test";
import assert from "node:assert/strict";
import { PHONE, another, bench, canRedo, canUndo, choose, close, drawn, enter, fine, go, linked, menu, open, openFigure, ready, redo, type, undo, value } from "./harness.mjs";

const at = bench();

async function edited(...lengths) {
  const page = await open(at.browser, at.address, PHONE);
  await linked(page);
  for (const length of lengths) await enter(page, "Chainstay length", length);
  return page;
}

test("back and forward undo and redo, and the buttons go the same way", async () => {
  const page = await edited("440", "441", "442");
  await page.goBack();
  await drawn(page, "441.00 mm");
  await page.goBack();
  await drawn(page, "440.00 mm");
  await redo(page);
  await drawn(page, "441.00 mm");
  await page.goForward();
  await drawn(page, "442.00 mm");
  assert.equal(await canRedo(page), false);
  for (const length of ["441", "440", "430"]) {
    await undo(page);
    await drawn(page, `${length}.00 mm`);
  }
  assert.equal(await canUndo(page), false);
  await fine(page);
});

test("undo and redo by key, but not in a text that has its own", async () => {
  const page = await edited("440");
  await page.getByRole("heading", { level: 1 }).first().evaluate(() => document.activeElement.blur());
  await page.keyboard.press("Control+Z");
  await drawn(page, "430.00 mm");
  await page.keyboard.press("Control+Shift+Z");
  await drawn(page, "440.00 mm");
  await page.keyboard.press("Control+Z");
  await drawn(page, "430.00 mm");
  await page.keyboard.press("Control+Y");
  await drawn(page, "440.00 mm");
  await fine(page);
});

test("a redo soon after an undo, and several at once, arrive one after the other", async () => {
  const page = await edited("440", "450", "460");
  await page.getByRole("heading", { level: 1 }).first().evaluate(() => document.activeElement.blur());
  await page.evaluate(() => {
    window.written = 0;
    for (const name of ["pushState", "replaceState"]) {
      const write = history[name].bind(history);
      history[name] = (...entry) => (window.written++, write(...entry));
    }
  });
  for (const pause of [0, 150, 400, 700]) {
    await page.keyboard.press("Control+Z");
    if (pause) await drawn(page, "450.00 mm");
    await page.waitForTimeout(pause);
    await page.keyboard.press("Control+Y");
    await drawn(page, "460.00 mm");
    // Longer than any move is waited for.
    await page.waitForTimeout(1000);
    assert.equal(await value(page, "Chainstay length"), "460", `${pause} ms`);
  }
  for (const key of "ZZZYY") await page.keyboard.press(`Control+${key}`);
  await drawn(page, "450.00 mm");
  await page.keyboard.press("Control+Y");
  await drawn(page, "460.00 mm");
  assert.equal(await canRedo(page), false);
  assert.equal(await page.evaluate(() => window.written), 0, "moves write nothing");
  await fine(page);
});

test("an edit after an undo forgets what was undone", async () => {
  const page = await edited("440", "441");
  await undo(page);
  await drawn(page, "440.00 mm");
  await enter(page, "Chainstay length", "500");
  assert.equal(await canRedo(page), false);
  await undo(page);
  await drawn(page, "440.00 mm");
  await fine(page);
});

test("a faulty text is taken back before the last good edit", async () => {
  const page = await edited("440");
  await type(page, "Chainstay length", "abc");
  await undo(page);
  assert.equal(await value(page, "Chainstay length"), "440");
  await undo(page);
  await drawn(page, "430.00 mm");
  await fine(page);
});

test("a reload keeps job, place, unit, notes and history", async () => {
  const page = await edited("440", "441");
  await (await openFigure(page, "Notes")).fill("left side first\nsecond line");
  await choose(page, "inch");
  await choose(page, "American");
  await go(page, "Cut");
  await page.getByRole("radio", { name: "Seat stays" }).check({ force: true });
  await page.waitForTimeout(600);
  await page.reload();
  assert.ok(await page.getByRole("radio", { name: "Seat stays" }).isChecked());
  await menu(page);
  for (const name of ["inch", "American"]) assert.ok(await page.getByRole("radio", { name }).isChecked(), name);
  await go(page, "Design");
  assert.equal(await value(page, "Notes"), "left side first\nsecond line");
  await drawn(page, "17.362 in");
  await undo(page);
  assert.equal(await value(page, "Notes"), "");
  await undo(page);
  await drawn(page, "17.323 in");
  await fine(page);
});

test("a page closed just after a key is pressed has kept the figure", async () => {
  const page = await edited();
  await type(page, "Chainstay length", "447");
  await page.goto("about:blank");
  await page.goto(at.address);
  await drawn(page, "447.00 mm");
  await fine(page);
});

test("another link put into the address opens, and undo brings the last job back", async () => {
  const page = await edited("440");
  const other = await edited("460");
  const hash = new URL(other.url()).hash;
  await fine(other);
  await page.evaluate((hash) => (location.hash = hash), hash);
  await drawn(page, "460.00 mm");
  await undo(page);
  await drawn(page, "440.00 mm");
  await redo(page);
  await drawn(page, "460.00 mm");
  await fine(page);
});

test("what was half-typed when another link is put into the address comes back with undo", async () => {
  const other = await edited("460");
  const hash = new URL(other.url()).hash;
  const page = await edited("440");
  await type(page, "Chainstay length", "445");
  await page.evaluate((hash) => (location.hash = hash), hash);
  await drawn(page, "460.00 mm");
  await undo(page);
  await drawn(page, "445.00 mm");
  await undo(page);
  await drawn(page, "440.00 mm");
  for (const length of ["445", "460"]) {
    await redo(page);
    await drawn(page, `${length}.00 mm`);
  }
  await fine(other);
  await fine(page);
});

test("undo after the first edit on a page opened with a damaged link", async () => {
  const page = await open(at.browser, `${at.address}#damaged`, PHONE);
  await enter(page, "Chainstay length", "440");
  await undo(page);
  await drawn(page, "430.00 mm");
  assert.equal(await canUndo(page), false);
  await fine(page);
});

test("a damaged link put into the address leaves the job in it", async () => {
  const page = await edited("440");
  const link = page.url();
  await page.evaluate(() => (location.hash = "#damaged"));
  await page.getByText("This link cannot be opened").waitFor();
  await page.waitForFunction((link) => location.href === link, link);
  await enter(page, "Chainstay length", "441");
  await undo(page);
  await drawn(page, "440.00 mm");
  await page.reload();
  await drawn(page, "440.00 mm");
  await fine(page);
});

test("a hundred edits: undo goes back as far as it says it can", async () => {
  const page = await edited();
  for (let step = 0; step < 60; step++) {
    await (await openFigure(page, "Chainstay length")).press("ArrowUp");
    await page.keyboard.press("Enter");
    await page.getByRole("dialog", { name: "Bottom bracket drop" }).getByRole("textbox").press("ArrowUp");
  }
  await close(page);
  await page.waitForTimeout(600);
  for (let step = 0; step < 130 && (await canUndo(page)); step++) {
    const before = page.url();
    await undo(page);
    await page.waitForFunction((before) => location.href !== before, before, { timeout: 1000 });
  }
  await drawn(page, "430.00 mm");
});

test("two tabs keep their own jobs", async () => {
  const page = await edited("440");
  const other = await another(page.context(), at.address);
  await drawn(other, "440.00 mm");
  await enter(other, "Chainstay length", "450");
  await page.reload();
  await drawn(page, "440.00 mm");
  await fine(page);
});

test("two tabs keep each other's ticks", async () => {
  const page = await edited();
  const other = await another(page.context(), at.address);
  const tick = async (page, step) => {
    await go(page, "Cut");
    await page.getByRole("checkbox").nth(step).check();
  };
  await tick(page, 0);
  await tick(other, 1);
  await page.reload();
  await page.getByText(/^2 of \d+ steps/).waitFor();
  await other.getByText(/^2 of \d+ steps/).waitFor();
  await page.getByRole("checkbox").nth(0).uncheck();
  await other.getByText(/^1 of \d+ steps/).waitFor();
  await fine(page);
});
