// Millimetres and inches.
import { test } from "node:test";
import assert from "node:assert/strict";
import { PHONE, PLACES, another, bench, close, drawn, enter, figure, fine, go, job, kept, linked, menu, open, shown, stays, type } from "./harness.mjs";

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
    await menu(page, "inch");
    // 430 / 25.4 = 16.92913…; 73° is no length.
    assert.equal(await shown(page, "Chainstay length"), "16.9291");
    assert.equal(await shown(page, "Seat angle"), "73");
    for (const place of PLACES) {
      await go(page, place);
      assert.deepEqual(await millimetres(page), [], place);
    }
    await go(page, "Design");
    await figure(page, "Chainstay length");
    await close(page);
    await menu(page, "mm");
    assert.equal(await shown(page, "Chainstay length"), "430");
  }
  await page.waitForTimeout(600);
  assert.equal(page.url(), before);
  assert.ok(await page.getByRole("button", { name: "Undo" }).isDisabled());
  await fine(page);
});

test("fractions as a shop writes them", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await menu(page, "inch");
  // An inch is 25.4 mm (ISO 80000-3).
  for (const [text, mm] of [["16 1/2", 419.1], ["16.5", 419.1], ["16 1/2\"", 419.1], ["16-3/4", 425.45], ["16 7/8 in", 428.625], ["410 mm", 410], ["41 cm", 410], ["41 kg", null]]) {
    await type(page, "Chainstay length", text);
    const bad = (await (await figure(page, "Chainstay length")).getAttribute("aria-invalid")) === "true";
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
  await menu(page, "inch");
  await linked(page);
  const link = await enter(page, "Seat tube diameter", "1 1/8");
  const other = await open(at.browser, link, PHONE);
  assert.equal(await shown(other, "Seat tube diameter"), "28.575");
  await fine(other);
  await fine(page);
});

test("the unit is kept, and a step in inches is a sixty-fourth", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await menu(page, "inch");
  await type(page, "Chainstay length", "16");
  await page.keyboard.press("ArrowUp");
  await close(page);
  assert.equal(await shown(page, "Chainstay length"), "16.0156");
  await page.waitForTimeout(600);
  await page.reload();
  await drawn(page, "16.016 in");
  await fine(page);
});

test("a text refused in one unit is read anew in the other", async () => {
  const page = await open(at.browser, at.address, PHONE);
  page.setDefaultTimeout(1500);
  await type(page, "Chainstay length", "16.5");
  assert.equal(await (await figure(page, "Chainstay length")).getAttribute("aria-invalid"), "true");
  await menu(page, "inch");
  await drawn(page, "chainstay length 16.500 in");
});

test("warnings speak in inches too", async () => {
  const page = await open(at.browser, at.address, PHONE);
  // Out of the slide's reach.
  await type(page, "Chainstay length", "700");
  await menu(page, "inch");
  await page.locator(".status.stop, .status.look").waitFor();
  await page.locator(".status-button").click();
  const findings = page.getByRole("list", { name: "Findings" });
  assert.match(await findings.innerText(), /\d in\b/);
  assert.doesNotMatch(await findings.innerText(), /\d mm\b/);
});

test("a text that says what was shown leaves the figure that was not changed", async () => {
  const page = await open(at.browser, at.address, PHONE);
  // 430 mm are 16.929133… in, of which four decimals are shown.
  const before = await linked(page);
  await menu(page, "inch");
  await type(page, "Chainstay length", "16.9291");
  await close(page);
  await (await figure(page, "Chainstay length")).focus();
  await page.keyboard.press("End");
  await page.keyboard.press("Space");
  await page.keyboard.press("Backspace");
  await close(page);
  await menu(page, "mm");
  await page.waitForTimeout(600);
  assert.equal(page.url(), before);
  await fine(page);
});

test("the ways to more room are not there until they answer what is seen", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await stays(page);
  await page.getByText("What clears what").click();
  await page.getByText("How wide a tyre").click();
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
  await menu(page, "inch");
  await page.waitForFunction(() => document.querySelector(".ways").getAttribute("aria-busy") === "true");
  assert.equal(await put.count(), 0);
  assert.equal(await ways.innerText(), "Being worked out …");
  await page.evaluate(() => window.letGo());
  await page.waitForFunction(() => !document.querySelector(".ways").hasAttribute("aria-busy"));
  assert.match(await ways.innerText(), /\d in\b/);
  assert.ok(await put.isEnabled());
  await fine(page);
});
