// Bent stays: entered by keys, turned by a finger, kept, passed on.
import { test } from "node:test";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { PHONE, WIDE, another, bench, close, fine, go, group, job, linked, open, part, press, ready, row, stays, type, undo, unfold, value, view } from "./harness.mjs";

const at = bench();

const tightest = (page) => page.locator(".tightest");
const roll = (page) => page.getByRole("slider", { name: "right roll about the chord" });
const angle = async (page) => Number(await roll(page).getAttribute("aria-valuenow"));
const until = (page, name, value) =>
  page.waitForFunction(([name, value]) => document.querySelector(`[role="slider"][aria-label="${name}"]`)?.getAttribute("aria-valuenow") === value, [name, value]);

/** Types a figure of a group, key by key. */
async function figure(page, where, name, text) {
  await type(page, name, text, where);
  await close(page);
}

/** Two bends that make an S, entered as a builder would. */
async function sBent(page) {
  await stays(page);
  await unfold(page, "Bends, butts, ovals");
  await press(page, "Add a bend");
  await figure(page, "Bend 1", "Straight before the bend", "90");
  await figure(page, "Bend 1", "Bend angle", "9,5");
  await press(page, "Add a bend");
  await figure(page, "Bend 2", "Straight before the bend", "70");
  await figure(page, "Bend 2", "Bend angle", "9,5");
  await figure(page, "Bend 2", "Bend radius", "160");
  await figure(page, "Tube", "Tube length", "445");
}

async function bentPage() {
  const page = await open(at.browser, at.address, PHONE);
  await sBent(page);
  await roll(page).waitFor();
  await tightest(page).waitFor();
  return page;
}

test("what must clear is drawn as soon as it is there, though nothing else of the drawing moves", async () => {
  const page = await open(at.browser, at.address, WIDE);
  const file = { name: "job.json", mimeType: "application/json", buffer: Buffer.from('{"format": 1, "surroundings": {"crank": {}}}') };
  await part(page, "Chainstays");
  await view(page, "Top");
  await job(page);
  await page.locator('input[type=file][accept*="json"]').first().setInputFiles(file);
  await page.locator("figure.drawing .marks text", { hasText: "crank arm" }).waitFor();
  await fine(page);
});

test("an S-bent pair is entered by keys, turned by a finger, and the tight place moves", async () => {
  const page = await bentPage();
  const before = await tightest(page).innerText();
  await roll(page).scrollIntoViewIfNeeded();
  const knob = await roll(page).locator(".knob").boundingBox();
  const [x, y] = [knob.x + knob.width / 2, knob.y + knob.height / 2];
  const devtools = await page.context().newCDPSession(page);
  const touch = (type, points) => devtools.send("Input.dispatchTouchEvent", { type, touchPoints: points });
  await touch("touchStart", [{ x, y }]);
  await page.locator(".handle.held").waitFor();
  for (let step = 1; step <= 10; step++) {
    // Inwards: it comes up towards the eye.
    await touch("touchMove", [{ x, y: y - 4 * step }]);
    await page.evaluate(() => new Promise((then) => requestAnimationFrame(then)));
  }
  await page.waitForFunction((before) => document.querySelector(".tightest").innerText !== before, before);
  await touch("touchEnd", []);
  const turned = await angle(page);
  // A degree for each dot.
  assert.ok(Math.abs(turned - 40) < 2, `turned by ${turned}`);
  assert.equal(Number(await value(page, "Roll", "Tube")), turned);
  await roll(page).focus();
  await page.keyboard.press("ArrowUp");
  assert.ok(Math.abs((await angle(page)) - turned - 0.1) < 1e-6);
  await undo(page);
  await undo(page);
  await until(page, "right roll about the chord", "0");
  await fine(page);
});

test("a bent tube turns a degree for each dot, past where it lies flat and back", async () => {
  const page = await open(at.browser, at.address, WIDE);
  await stays(page);
  await unfold(page, "Bends, butts, ovals");
  await press(page, "Add a bend");
  await figure(page, "Bend 1", "Bend angle", "20");
  await figure(page, "Tube", "Roll", "80");
  await until(page, "right roll about the chord", "80");
  await roll(page).scrollIntoViewIfNeeded();
  const { x: left, y: top, width, height } = await roll(page).locator(".knob").boundingBox();
  const [x, y] = [left + width / 2, top + height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  const moved = async (by) => {
    await page.mouse.move(x, y + by, { steps: 3 });
    await page.evaluate(() => new Promise((then) => requestAnimationFrame(() => requestAnimationFrame(then))));
    return angle(page);
  };
  // The bend's tip points inwards: pulled that way it comes down to the plane. The chord splays, so that a little of an upright move is along it.
  for (const by of [1, 8, -8, 30]) {
    const turned = await moved(by);
    assert.ok(Math.abs(turned - (80 + by)) < 0.5, `${by}: ${turned}`);
  }
  assert.ok((await moved(-100)) < -15, "it has gone on past where it lies flat");
  assert.equal(await moved(0), 80);
  await page.mouse.up();
  await fine(page);
});

test("a link carries the bends, and a job file too", async () => {
  const page = await bentPage();
  const link = await linked(page);
  const other = await another(await at.browser.newContext(PHONE), link);
  await stays(other);
  await roll(other).waitFor();
  assert.equal(await value(other, "Bend angle", "Bend 2"), "9.5");
  await fine(other);
  await job(page);
  const [download] = await Promise.all([page.waitForEvent("download"), press(page, "Save job file")]);
  const text = readFileSync(await download.path(), "utf8");
  assert.equal(JSON.parse(text).chainstays.right.tube.bends.length, 2);
  const third = await open(at.browser, at.address, PHONE);
  await job(third);
  await third.locator('input[type="file"]').setInputFiles({ name: "job.json", mimeType: "application/json", buffer: Buffer.from(text) });
  await third.getByText("The job file is opened").waitFor();
  assert.equal(new URL(await linked(third)).hash, new URL(link).hash);
  await fine(third);
  await fine(page);
});

test("the place with the most room is found, and pulling the handle takes it over", async () => {
  const page = await bentPage();
  await page.getByRole("radio", { name: "Find both" }).check({ force: true });
  await unfold(page, "How the right chainstay lies");
  await page.getByText("Front trim, found").waitFor();
  assert.equal(await row(page, "Roll", "Tube").count(), 0);
  await roll(page).focus();
  await page.keyboard.press("ArrowUp");
  await page.getByText("no longer searched for").waitFor();
  assert.ok(await page.getByRole("radio", { name: "As entered" }).isChecked());
  await row(page, "Roll", "Tube").waitFor();
  await fine(page);
});

test("a tube on the shelf survives a reload and is put into the other pair", async () => {
  const page = await bentPage();
  await unfold(page, "Shelf of tubes");
  await page.getByLabel("Name of this tube").fill("Bent 22");
  await press(page, "Put this tube on my shelf");
  await page.getByText("is on the shelf").waitFor();
  await page.reload();
  await ready(page);
  await part(page, "Seat stays");
  await unfold(page, "Shelf of tubes");
  await press(page, "Put in Bent 22");
  await unfold(page, "Tube with 2 bends");
  assert.equal(await value(page, "Bend angle", "Bend 1"), "9.5");
  await page.getByLabel("Name of Bent 22").fill("Bent 22.2");
  await page.keyboard.press("Enter");
  await press(page, "Remove Bent 22.2 from the shelf");
  await page.waitForFunction(() => !document.querySelector('[aria-label="Put in Bent 22.2"]'));
  await fine(page);
});

test("rubbish in the store hurts no shelf", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await part(page, "Chainstays");
  const key = await page.evaluate(() => Object.keys(localStorage).find((key) => key.endsWith("shelf")));
  await page.evaluate((key) => localStorage.setItem(key, "rubbish \u0000 %% AAAA"), key);
  await page.reload();
  await ready(page);
  await part(page, "Chainstays");
  await unfold(page, "Shelf of tubes");
  await page.getByLabel("Name of this tube").fill("Plain");
  await press(page, "Put this tube on my shelf");
  await page.getByRole("button", { name: "Put in Plain" }).waitFor();
  await fine(page);
});

test("rings that come too near are told with what would give the room", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await part(page, "Drive and brake");
  await unfold(page, "What must clear");
  await page.getByRole("switch", { name: "Look at what turns beside the stays" }).check();
  await type(page, "Chainring teeth", "46.5", "Chainring 1");
  await page.locator("#figure-fault").getByText("A whole number is needed here").waitFor();
  await page.keyboard.press("Backspace");
  await page.keyboard.press("Backspace");
  await part(page, "Chainstays");
  await tightest(page).waitFor();
  await unfold(page, "What clears what");
  await page.getByRole("list", { name: "Room, tightest first" }).getByText("Chainring, right chainstay").waitFor();
  await unfold(page, "How wide a tyre");
  await page.getByRole("heading", { name: "Widest tyre with these stays" }).waitFor();
  await fine(page);
});
