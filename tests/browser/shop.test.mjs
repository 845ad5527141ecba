// The builder's own equipment: entered by keystrokes, kept, passed on, and used for cuts and steps.
import { test } from "node:test";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { PHONE, WIDE, another, axe, bench, close, fine, go, open, press, ready, row, settled, start, type, undo, value } from "./harness.mjs";

const at = bench();
const summary = (page, text) => page.locator("summary").filter({ hasText: text }).first();
const field = (page, name) => page.getByRole("textbox", { name, exact: true });

/** The shop's box, open. */
async function shop(page) {
  await go(page, "Shop");
  await summary(page, "This shop").click();
  await summary(page, "Hole saws").waitFor();
}

/** The example shop, taken. */
async function example(page) {
  await shop(page);
  await summary(page, "Start from a list").click();
  await press(page, "Take the example shop");
  await summary(page, "Hole saws (7)").waitFor();
}

/** Opens the saw whose title holds `text`. */
async function saw(page, text) {
  await summary(page, "Hole saws").click();
  await summary(page, text).click();
  await field(page, "Kerf").waitFor();
}

/** Types a text key by key in place of what stands in a field. */
async function keys(page, name, text) {
  await field(page, name).click();
  await page.keyboard.press("Control+A");
  await page.keyboard.type(text);
}

const steps = (page) => page.locator(".step-item").filter({ hasText: "Mount the hole saw" }).first();

/** Waits until the shop that is kept holds `word`. */
const kept = (page, word) =>
  page.waitForFunction((word) => {
    const text = (localStorage["staywright.shop"] ?? "").slice(1).replaceAll("-", "+").replaceAll("_", "/");
    return atob(text).includes(word);
  }, word);

test("a saw measured at phone size is used for cut and steps, and kept over a reload", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await example(page);
  await saw(page, "measured ⌀\u202f38.4");
  await keys(page, "Measured diameter", "1 1/2 in");
  await page.getByText("1 1/2 in = 38.1 mm").waitFor();
  await page.keyboard.press("Enter");
  assert.equal(await field(page, "Measured diameter").inputValue(), "38.1");
  await summary(page, "⌀\u202f38 mm, measured ⌀\u202f38.1 mm").waitFor();
  await page.reload();
  await ready(page);
  await shop(page);
  await saw(page, "measured ⌀\u202f38.1");
  assert.equal(await field(page, "Measured diameter").inputValue(), "38.1");
  await go(page, "Cut");
  const used = page.locator("button.cut[aria-pressed=true]");
  await used.waitFor();
  assert.match(await used.innerText(), /^Fit · /m);
  const name = (await used.locator(".cut-name").innerText()).trim();
  await steps(page).filter({ hasText: name }).waitFor();
  await fine(page);
});

test("the keyboard's place stays where it is while a figure is typed", async () => {
  const page = await open(at.browser, at.address, WIDE);
  await example(page);
  await saw(page, "measured ⌀\u202f38.4");
  await keys(page, "Kerf", "2.05");
  await page.getByText("Hole saws (7)").waitFor();
  assert.equal(await page.evaluate(() => document.activeElement.value), "2.05");
  await page.keyboard.press("Tab");
  await page.waitForFunction(() => localStorage["staywright.shop"]?.length > 50);
  await fine(page);
});

test("rubbish in three fields stays there with its fault, and the last good shop counts", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await example(page);
  const before = await page.evaluate(() => localStorage["staywright.shop"]);
  await saw(page, "measured ⌀\u202f38.4");
  const rubbish = [["Kerf", "abc", /is not a figure/], ["Saw depth", "0.5", /outside 3 to 300/], ["Neck length", "500", /must not be more than/]];
  for (const [name, text, words] of rubbish) {
    // At one stroke: the figures on the way to a long one are good ones.
    if (name === "Neck length") await field(page, name).fill(text);
    else await keys(page, name, text);
    await page.locator(".text-field.faulty").filter({ hasText: name }).getByText(words).waitFor();
  }
  for (const [name, text] of rubbish) {
    assert.equal(await field(page, name).inputValue(), text);
    assert.equal(await field(page, name).getAttribute("aria-invalid"), "true");
  }
  assert.equal(await page.evaluate(() => localStorage["staywright.shop"]), before);
  // A reload loses none of it.
  await page.reload();
  await ready(page);
  await summary(page, "This shop").click();
  for (const [name, text, words] of rubbish) {
    await page.locator(".text-field.faulty").filter({ hasText: name }).getByText(words).waitFor();
    assert.equal(await field(page, name).inputValue(), text);
  }
  // The arbor as long as its neck wants it: what waited is taken.
  await keys(page, "Arbor reach", "600");
  await page.waitForFunction(() => document.querySelectorAll(".text-field.faulty").length === 2);
  assert.equal(await field(page, "Neck length").inputValue(), "500");
  await fine(page);
});

test("a saw is picked for both stays of a pass and left to the page again", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await example(page);
  await go(page, "Cut");
  const rows = page.locator("button.cut[aria-pressed]");
  await rows.first().waitFor();
  const other = rows.and(page.locator("[aria-pressed=false]")).first();
  const name = (await other.locator(".cut-name").innerText()).trim();
  await other.tap();
  await page.getByText("Picked by you.").waitFor();
  await page.getByRole("button", { name: /^Left chainstay, front end/ }).click();
  await page.locator("button.cut[aria-pressed=true]").filter({ hasText: name }).waitFor();
  await page.reload();
  await page.getByText("Picked by you.").waitFor();
  await press(page, "Leave the pick to the page");
  await page.getByText("Picked by itself").waitFor();
  await fine(page);
});

test("metal chosen at the cut changes its speed and is the shop's", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await example(page);
  await go(page, "Cut");
  const spindle = page.locator(".told").filter({ hasText: "Speed and feed" }).locator(".fact").filter({ hasText: "Spindle" });
  const before = await spindle.innerText();
  await page.getByLabel("Stays are made of").selectOption({ label: "aluminium" });
  await page.waitForFunction((before) => ![...document.querySelectorAll(".fact")].some((one) => one.innerText === before), before);
  await go(page, "Shop");
  await summary(page, "This shop").click();
  assert.equal(await page.getByLabel("Stays are made of").inputValue(), "aluminium");
  await fine(page);
});

test("a shop file is saved, opened again, and the last change can be taken back", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await example(page);
  const [download] = await Promise.all([page.waitForEvent("download"), press(page, "Save shop file")]);
  const text = readFileSync(await download.path(), "utf8");
  assert.equal(JSON.parse(text).hole_saws.length, 7);
  const file = (text) => ({ name: "shop.json", mimeType: "application/json", buffer: Buffer.from(text) });
  const fewer = JSON.parse(text);
  fewer.hole_saws.length = 3;
  const input = page.locator("input[type=file]").last();
  await input.setInputFiles(file(JSON.stringify(fewer)));
  await summary(page, "Hole saws (3)").waitFor();
  await press(page, "Take the last change back");
  await summary(page, "Hole saws (7)").waitFor();
  await input.setInputFiles(file('{"format":1,"hole_saws":3}'));
  await page.getByText(/The shop file was not opened: .*Nothing was changed/).waitFor();
  await summary(page, "Hole saws (7)").waitFor();
  await fine(page);
});

test("a link with a shop is taken where there is none, and asks where there is one", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"], { origin: new URL(at.address).origin });
  await shop(page);
  assert.ok(await page.getByRole("button", { name: "Copy link with this shop" }).isDisabled());
  await summary(page, "Start from a list").click();
  await press(page, "Take the example shop");
  await summary(page, "Hole saws (7)").waitFor();
  await press(page, "Copy link with this shop");
  await page.getByText("It holds the job and this shop.").waitFor();
  const link = await page.evaluate(() => navigator.clipboard.readText());
  assert.ok(link.length < 600, `${link.length} characters`);
  await fine(page);

  const fresh = await open(at.browser, link, PHONE);
  await fresh.getByText("The shop is taken over.").waitFor();
  await shop(fresh);
  await summary(fresh, "Hole saws (7)").waitFor();
  await fine(fresh);

  const other = await open(at.browser, at.address, PHONE);
  await shop(other);
  await keys(other, "Shop name", "Mine");
  await kept(other, "Mine");
  await other.goto("about:blank");
  await other.goto(link);
  await ready(other);
  await other.getByText("This link brings a shop").waitFor();
  await press(other, "Keep mine");
  await shop(other);
  assert.equal(await field(other, "Shop name").inputValue(), "Mine");
  await other.goto("about:blank");
  await other.goto(link);
  await press(other, "Take the link's shop");
  await other.getByText("The shop is taken over.").waitFor();
  await shop(other);
  assert.equal(await field(other, "Shop name").inputValue(), "Weir Lane");
  // Nothing is lost: the own shop comes back.
  await press(other, "Take the last change back");
  await other.waitForFunction(() => [...document.querySelectorAll("input")].some((one) => one.value === "Mine"));
  await fine(other);
});

test("lists grow and shrink, and a mill may have certain speeds only", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await shop(page);
  await summary(page, "Hole saws (29)").click();
  await press(page, "Add a saw");
  await summary(page, "Hole saws (30)").waitFor();
  await press(page, "Take the inch sizes");
  await summary(page, "Hole saws (29)").waitFor();
  await summary(page, "⌀\u202f38.1 mm, not measured").click();
  await press(page, "Remove this saw");
  await summary(page, "Hole saws (28)").waitFor();
  await summary(page, "Spindle speeds").click();
  await press(page, "Only certain speeds");
  await press(page, "Add a speed");
  await keys(page, "Speed 2", "325");
  await page.waitForFunction(() => !document.querySelector(".text-field.faulty"));
  assert.equal(await field(page, "Speed 2").inputValue(), "325");
  await fine(page);
});

test("what the store holds of a shop may be rubbish", async () => {
  const page = await open(at.browser, at.address, PHONE);
  for (const text of ["!!!", "AAAA", "BQECAwQF"]) {
    await page.evaluate((text) => ["shop", "pad", "picked"].forEach((key) => localStorage.setItem(`staywright.${key}`, text)), text);
    const next = await another(page.context(), at.address);
    await go(next, "Shop");
    await summary(next, "This shop").click();
    await summary(next, "Hole saws (29)").waitFor();
    assert.deepEqual(next.wrongs, []);
    await next.close();
  }
  await fine(page);
});

test("no accessibility fault in shop and cut, in light and dark", async () => {
  for (const colorScheme of ["light", "dark"]) {
    const page = await open(at.browser, at.address, { ...PHONE, colorScheme });
    await example(page);
    await saw(page, "measured ⌀\u202f38.4");
    assert.deepEqual(await axe(page), [], colorScheme);
    await go(page, "Cut");
    await page.getByText("Cutters on hand").waitFor();
    assert.deepEqual(await axe(page), [], colorScheme);
    await fine(page);
  }
});

const width = "Block width";

test("a fixture kept as the shop's is what the next job starts with", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await go(page, "Shop");
  await summary(page, "Fixture and edge finder").click();
  await type(page, width, "63.5");
  await type(page, "Edge finder diameter", "6");
  await close(page);
  await press(page, "Keep as my shop's fixture");
  await page.getByText("The fixture is kept in “This shop”").waitFor();
  await start(page, /^Tern Lane/);
  await page.getByText("Another job is open, with your shop's fixture.").waitFor();
  await go(page, "Shop");
  assert.equal(await value(page, width), "63.5");
  assert.equal(await value(page, "Edge finder diameter"), "6");
  // Nothing else of a shop was entered: the steps name no saw's gap.
  await go(page, "Cut");
  await page.locator(".step-item").first().waitFor();
  assert.equal(await page.getByText("Gap with this saw").count(), 0);
  await fine(page);
});

test("a fixture that was kept beside the shop goes into it", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await go(page, "Shop");
  await summary(page, "Fixture and edge finder").click();
  const before = page.url();
  await type(page, width, "63.5");
  await close(page);
  await settled(page, before);
  await page.evaluate(() => localStorage.setItem("staywright.fixture", location.hash.slice(1)));
  await undo(page);
  await page.waitForFunction((before) => location.href === before, before).catch(() => {});
  await page.reload();
  await ready(page);
  await page.waitForFunction(() => !localStorage.getItem("staywright.fixture") && localStorage["staywright.shop"]?.length > 4);
  await summary(page, "Fixture and edge finder").click();
  assert.equal(await value(page, width), "70");
  await press(page, "Put my shop's fixture in");
  await row(page, width).getByText("63.5").waitFor();
  await fine(page);
});
