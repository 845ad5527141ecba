// Millimetres and inches.
import { test } from "node:test";
import assert from "node:assert/strict";
import { PHONE, PLACES, bench, canUndo, choose, close, drawn, enter, field, fine, findings, go, linked, open, openFigure, part, type, unfold, value } from "./harness.mjs";

const at = bench();
/** Every line of the place that speaks of millimetres, warnings and what a source says apart. */
const millimetres = (page, all = false) =>
  page.locator("main").evaluate((main, all) => {
    const lines = main.innerText.split("\n").filter((line) => /\d mm\b/.test(line));
    const warnings = [...main.querySelectorAll(".warnings li")].map((one) => one.innerText);
    return lines.filter((line) => (all || !warnings.includes(line)) && !line.startsWith("Starting limit:"));
  }, all);

test("the switch rewrites every figure and changes nothing in the job", async () => {
  const page = await open(at.browser, at.address, PHONE);
  const before = await linked(page);
  for (let turn = 0; turn < 3; turn++) {
    await choose(page, "inch");
    // 430 / 25.4 = 16.92913…; 73° is no length.
    assert.equal(await value(page, "Chainstay length"), "16.9291");
    assert.equal(await value(page, "Seat angle"), "73");
    for (const place of PLACES) {
      await go(page, place);
      assert.deepEqual(await millimetres(page), [], place);
    }
    await openFigure(page, "Chainstay length");
    await page.keyboard.press("Tab");
    await choose(page, "mm");
    assert.equal(await value(page, "Chainstay length"), "430");
  }
  await page.waitForTimeout(600);
  assert.equal(page.url(), before);
  assert.equal(await canUndo(page), false);
  await fine(page);
});

test("fractions as a shop writes them", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await choose(page, "inch");
  // An inch is 25.4 mm (ISO 80000-3).
  for (const [text, mm] of [["16 1/2", 419.1], ["16.5", 419.1], ["16 1/2\"", 419.1], ["16-3/4", 425.45], ["16 7/8 in", 428.625], ["410 mm", 410], ["41 cm", 410], ["41 kg", null]]) {
    await type(page, "Chainstay length", text);
    const bad = (await field(page, "Chainstay length").getAttribute("aria-invalid")) === "true";
    if (mm === null || bad) {
      assert.ok(bad && mm === null, `${text} ${bad ? "is refused" : "is taken"}`);
      continue;
    }
    await drawn(page, `chainstay length ${(mm / 25.4).toFixed(3)} in`);
  }
  await fine(page);
});

test("a fraction typed in inches is the same figure in millimetres, in another browser too", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await choose(page, "inch");
  await linked(page);
  const link = await enter(page, "Seat tube diameter", "1 1/8");
  const other = await open(at.browser, link, PHONE);
  assert.equal(await value(other, "Seat tube diameter"), "28.575");
  await fine(other);
  await fine(page);
});

test("the unit is kept, and a step in inches is a sixty-fourth", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await choose(page, "inch");
  await type(page, "Chainstay length", "16");
  await page.keyboard.press("ArrowUp");
  assert.equal(await value(page, "Chainstay length"), "16.0156");
  await page.waitForTimeout(600);
  await page.reload();
  await drawn(page, "16.016 in");
  await fine(page);
});

test("a text refused in one unit is read anew in the other", async () => {
  const page = await open(at.browser, at.address, PHONE);
  page.setDefaultTimeout(1500);
  await type(page, "Chainstay length", "16.5");
  assert.equal(await field(page, "Chainstay length").getAttribute("aria-invalid"), "true");
  await choose(page, "inch");
  await drawn(page, "chainstay length 16.500 in");
});

test("warnings speak in inches too", async () => {
  const page = await open(at.browser, at.address, PHONE);
  // Out of the slide's reach.
  await type(page, "Chainstay length", "700");
  await choose(page, "inch");
  await go(page, "Cut");
  await page.getByRole("list", { name: "Before the spindle turns" }).waitFor();
  assert.deepEqual(await millimetres(page, true), []);
  const told = await (await findings(page)).getByRole("listitem").allInnerTexts();
  assert.ok(told.some((one) => /\d in\b/.test(one)), told.join("|"));
  assert.deepEqual(told.filter((one) => /\d mm\b/.test(one)), []);
});

test("a text that says what was shown leaves the figure that was not changed", async () => {
  const page = await open(at.browser, at.address, PHONE);
  // 430 mm are 16.929133… in, of which four decimals are shown.
  const before = await linked(page);
  await choose(page, "inch");
  await type(page, "Chainstay length", "16.9291");
  await close(page);
  await openFigure(page, "Chainstay length");
  await page.keyboard.press("End");
  await page.keyboard.press("Space");
  await page.keyboard.press("Backspace");
  await close(page);
  await choose(page, "mm");
  await page.waitForTimeout(600);
  assert.equal(page.url(), before);
  await fine(page);
});

test("the ways to more room are not there until they answer what is seen", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await part(page, "Chainstays");
  await unfold(page, "What clears what");
  await unfold(page, "How wide a tyre");
  const ways = page.locator(".ways");
  const put = ways.getByRole("button", { name: "Put in" }).first();
  await put.waitFor();
  assert.ok(await put.isEnabled());
  // Whoever answers is made to wait.
  await page.evaluate(() => {
    const ask = window.staywrightAsk;
    window.held = new Promise((go) => (window.letGo = go));
    window.staywrightAsk = async (question) => {
      const bytes = question.slice();
      await window.held;
      return ask(bytes);
    };
  });
  await choose(page, "inch");
  await page.waitForFunction(() => document.querySelector(".ways").getAttribute("aria-busy") === "true");
  assert.equal(await put.count(), 0);
  assert.equal(await ways.innerText(), "Being worked out …");
  await page.evaluate(() => window.letGo());
  await page.waitForFunction(() => !document.querySelector(".ways").hasAttribute("aria-busy"));
  assert.match(await ways.innerText(), /\d in\b/);
  assert.ok(await put.isEnabled());
  await fine(page);
});
