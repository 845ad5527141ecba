// Check: readings, verdict, mend, correction, link; what has to be held; what moves; the self-check.
import test from "node:test";
import assert from "node:assert/strict";
import { fileURLToPath } from "node:url";
import { PHONE, another, axe, bench, fine, go, kept, open, press, serve, stop, watch } from "./harness.mjs";

const at = bench();

const READINGS = {
  "Length of the right chainstay": "403.5",
  "Length of the left chainstay": "401.5",
  "Angle of the front cut of the right chainstay": "82,4",
  "Angle of the front cut of the left chainstay": "82.4",
  "Centre line to the right dropout of the chainstays": "71.5",
  "Centre line to the left dropout of the chainstays": "71.5",
};

async function check(options = PHONE) {
  const page = await open(at.browser, at.address, options);
  await go(page, "Check");
  await page.getByText("Nominal:").waitFor();
  return page;
}

const read = (page, name) => page.getByRole("textbox", { name, exact: true });
const said = (page) => page.locator(".said");

async function measure(page, readings) {
  for (const [name, text] of Object.entries(readings)) {
    await read(page, name).click();
    await page.keyboard.type(text);
  }
}

const verdict = (page, name) => page.locator(".result").filter({ hasText: name });

test("six readings give a verdict, and say what to measure besides; two more give the mend", async () => {
  const page = await check();
  await measure(page, READINGS);
  await verdict(page, "Right chainstay less left").getByText("out:").waitFor();
  await verdict(page, "Wheel leans").getByText("measure also: Length of the right seat stay; Length of the left seat stay").waitFor();
  await page.getByRole("radio", { name: "Seat stays" }).check();
  const nominal = await page.locator(".check").filter({ hasText: "Length of the right seat stay" }).locator(".reading").innerText();
  const figure = nominal.replace(" mm", "");
  await measure(page, { "Length of the right seat stay": figure, "Length of the left seat stay": figure });
  await said(page).getByText(/^Take 2(\.\d+)? mm ± .* off the right chainstay, front end: that puts the wheel square/).waitFor();
  await fine(page);
});

test("readings that contradict each other are named", async () => {
  const page = await check();
  await measure(page, { ...READINGS, "Tip to tip of the right chainstay": "385" });
  await said(page).getByText("The readings contradict each other. Read this one again first:").waitFor();
  await fine(page);
});

test("two weak readings that are right leave the rest open, and contradict nothing", async () => {
  const page = await check();
  await measure(page, { "Tip to tip of the right chainstay": "388.88", "Length of the right chainstay": "401.51" });
  await said(page).getByText("The readings agree with each other.").waitFor();
  await verdict(page, "Axle off centre").getByText("measure also:").waitFor();
  assert.equal(await page.getByText("No stays fit these readings").count(), 0);
  assert.equal(await said(page).getByText(/^out:/).count(), 0);
  await fine(page);
});

test("rubbish and absurd readings hurt nothing", async () => {
  const page = await check();
  await measure(page, { ...READINGS, "Tip to tip of the right chainstay": "long", "At post 1 of the chainstays, inside": "1e12", "At post 1 of the chainstays, outside": "-5" });
  await page.getByText("“long” is not a figure").waitFor();
  await page.waitForTimeout(1000);
  assert.ok((await said(page).innerText()).length > 10);
  assert.doesNotMatch(await page.locator("main").innerText(), /NaN|inf|null|undefined/);
  await fine(page);
});

test("readings go with a link to another browser", async () => {
  const page = await check();
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"], { origin: new URL(at.address).origin });
  await measure(page, READINGS);
  await press(page, "Copy link with the readings");
  await page.getByText("The link is copied.").waitFor();
  const link = await page.evaluate(() => navigator.clipboard.readText());
  await fine(page);
  const other = await open(at.browser, link, PHONE);
  await go(other, "Check");
  await verdict(other, "Right chainstay less left").getByText("out:").waitFor();
  for (const [name, text] of Object.entries(READINGS)) assert.equal(await read(other, name).inputValue(), text);
  await other.reload();
  await go(other, "Check");
  assert.equal(await read(other, "Length of the right chainstay").inputValue(), "403.5");
  await fine(other);
});

test("a correction is kept, seen in the shop, and removed", async () => {
  const page = await check();
  await measure(page, { ...READINGS, "Length of the left chainstay": "403.5", "Length of the right chainstay": "403.5" });
  const habit = page.locator(".mends li").filter({ hasText: "Slide, chainstays" });
  await habit.getByRole("button", { name: "Keep as a correction" }).click();
  await go(page, "Shop");
  const kept = page.locator(".corrections li").filter({ hasText: /Slide, chainstays: set it .* less than the page tells/ });
  await kept.waitFor();
  await page.reload();
  await kept.waitFor();
  await kept.getByRole("button", { name: "Remove" }).click();
  await kept.waitFor({ state: "detached" });
  await fine(page);
});

test("what has to be held follows the limit and the settings", async () => {
  const page = await check();
  const hold = () => page.locator(".shares .hold").first().innerText();
  const before = await hold();
  const limit = page.getByRole("textbox", { name: "Keep it within" });
  await limit.fill("0.5");
  await limit.press("Tab");
  await page.waitForFunction((before) => document.querySelector(".shares .hold").innerText !== before, before);
  await limit.fill("wide");
  await limit.press("Tab");
  await page.getByText("“wide” is not a figure. Allowed: 0 to 100 mm.").waitFor();
  await page.getByText("How far each setting can be off").click();
  const largest = await page.locator(".shares .share-name").first().innerText();
  // The setting that matters most, once it is exact, matters most no longer.
  const spread = page.locator(".spreads .text-field").filter({ hasText: `${largest}, ±` }).locator("input");
  await spread.fill("0");
  await spread.press("Tab");
  await page.waitForFunction((largest) => document.querySelector(".shares .share-name").innerText !== largest, largest);
  await page.getByLabel("Result").selectOption({ label: "Wheel leans, seen at the rim" });
  await page.getByText("Nominal: 0 mm.").waitFor();
  await fine(page);
});

test("a figure that is touched says what moves", async () => {
  const page = await check({ viewport: { width: 1440, height: 900 } });
  await page.locator('.touched text[data-topic="chainstays.right.rear.half_spacing_mm"]').first().hover();
  await page.getByText("For each millimetre more of the rear half spacing:").waitFor();
  await page.locator(".touched .fact").filter({ hasText: "Right chainstay, splay" }).first().waitFor();
  await fine(page);
});

test("the published examples come out as published", async () => {
  const page = await check();
  await page.getByText("Does this page reckon right?").click();
  await press(page, "Work the examples");
  await page.getByText("agrees").first().waitFor({ timeout: 30000 });
  assert.equal(await page.getByText("differs", { exact: true }).count(), 0);
  assert.ok((await page.getByText("agrees", { exact: true }).count()) > 5);
  await fine(page);
});

test("no accessibility fault with readings entered", async () => {
  const page = await check();
  await measure(page, READINGS);
  await verdict(page, "Axle off centre").waitFor();
  assert.deepEqual(await axe(page), []);
  await fine(page);
});

test("with the server stopped what answers beside the page answers too", async () => {
  const { server, address } = await serve();
  const page = await open(at.browser, address, PHONE);
  await kept(page);
  await stop(server);
  await page.reload();
  await go(page, "Check");
  await measure(page, READINGS);
  await verdict(page, "Right chainstay less left").getByText("out:").waitFor();
  await page.context().close();
});

test("the single file checks too", async () => {
  const file = new URL("../../dist/staywright.html", import.meta.url);
  const context = await at.browser.newContext(PHONE);
  const page = watch(await context.newPage(), "file://");
  page.on("request", (request) => assert.match(request.url(), /^(file|data|blob):/));
  await page.goto(`file://${fileURLToPath(file)}`);
  await go(page, "Check");
  await page.getByText("Nominal:").waitFor();
  await measure(page, READINGS);
  await verdict(page, "Right chainstay less left").getByText("out:").waitFor();
  await context.close();
});

test("what is no reading is refused at its field with the range", async () => {
  const page = await check();
  const tips = read(page, "Tip to tip of the right chainstay");
  for (const [text, words] of [["abc", "“abc” is not a figure. Allowed: 0 to 2000 mm."], ["-5", "Reading −5 mm is outside 0 to 2000 mm."]]) {
    await tips.fill(text);
    await page.getByText(words).waitFor();
    assert.equal(await tips.getAttribute("aria-invalid"), "true");
  }
  await tips.fill("400");
  await page.getByText(/your limit/).first().waitFor();
  assert.equal(await tips.getAttribute("aria-invalid"), null);
  await fine(page);
});

/** What no figure of Check may be: none of it is a number within a range. */
const RUBBISH = ["abc", "1e999", "NaN", "1000000000", "<b>1</b>"];

test("what no limit, largest error or reading can be is refused at its field, and nothing else is lost", async () => {
  const page = await check();
  await page.getByText("How far each setting can be off").click();
  await measure(page, { "Length of the left chainstay": "401.5" });
  const inputs = page.locator("main input[type=text]");
  const count = await inputs.count();
  assert.ok(count > 30, `${count} fields`);
  const before = await inputs.evaluateAll((all) => all.map((input) => input.value));
  for (let i = 0; i < count; i += 1) {
    const input = inputs.nth(i);
    const text = RUBBISH[i % RUBBISH.length];
    await input.fill(text);
    const id = await input.getAttribute("aria-describedby");
    assert.equal(await input.getAttribute("aria-invalid"), "true", `${id}: ${text}`);
    assert.match(await page.locator(`[id="${id}"]`).innerText(), /0 to (100|180|2000)( mm|°)/, `${id}: ${text}`);
    await input.blur();
    assert.equal(await input.inputValue(), text);
    await input.fill(before[i]);
    assert.equal(await input.getAttribute("aria-invalid"), null, id);
  }
  assert.deepEqual(await inputs.evaluateAll((all) => all.map((input) => input.value)), before);
  assert.equal(await page.locator("main b", { hasText: /^1$/ }).count(), 0);
  await fine(page);
});

test("limits and largest errors are in the unit of the page", async () => {
  const page = await check();
  const limit = page.getByRole("textbox", { name: "Lengths within ±, mm", exact: true });
  await limit.fill("1/64 in");
  await limit.blur();
  assert.equal(await limit.inputValue(), "0.397");
  await fine(page);
});
