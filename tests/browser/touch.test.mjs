// The drawings under a finger.
import { test } from "node:test";
import assert from "node:assert/strict";
import { PHONE, bench, close, field, figure, figureRow, fine, open, shown, stays, type } from "./harness.mjs";

const at = bench();

/** A finger: the browser's own touch events, as a screen sends them. */
async function finger(page) {
  const devtools = await page.context().newCDPSession(page);
  const send = (type, points) => devtools.send("Input.dispatchTouchEvent", { type, touchPoints: points.map(([x, y]) => ({ x, y })) });
  return {
    down: (x, y) => send("touchStart", [[x, y]]),
    move: (x, y) => send("touchMove", [[x, y]]),
    up: () => send("touchEnd", []),
    cancel: () => send("touchCancel", []),
  };
}

async function middle(locator) {
  const box = await locator.boundingBox();
  return [box.x + box.width / 2, box.y + box.height / 2];
}

async function byFinger() {
  const page = await open(at.browser, at.address, PHONE);
  await stays(page);
  const handle = page.getByRole("slider", { name: "right rear half spacing" });
  await handle.waitFor();
  return { page, handle, touch: await finger(page) };
}

const value = async (handle) => Number(await handle.getAttribute("aria-valuenow"));
const frame = (page) => page.evaluate(() => new Promise((then) => requestAnimationFrame(() => requestAnimationFrame(then))));
const scrolled = (page) => page.evaluate(() => scrollY);

const held = (page) => page.locator(".handle.held").waitFor();

/** Puts the finger down on a handle and rests it there until it has hold; where the handle was. */
async function grasp(page, handle, touch) {
  const at = await middle(handle.locator(".knob"));
  await touch.down(...at);
  await held(page);
  return at;
}

test("a handle on which a finger rested follows it, its field follows the handle, and the page stays where it is", async () => {
  const { page, handle, touch } = await byFinger();
  const before = await value(handle);
  const [x, y] = await grasp(page, handle, touch);
  for (let step = 1; step <= 12; step++) {
    await touch.move(x + 1, y - 2 * step);
    await frame(page);
  }
  const [, under] = await middle(handle.locator(".knob"));
  assert.ok(Math.abs(under - (y - 24)) < 3, `the handle is at ${under}, the finger at ${y - 24}`);
  assert.equal(await scrolled(page), 0);
  await touch.up();
  const after = await value(handle);
  assert.ok(after < before - 5, `${before} to ${after}`);
  assert.equal(Number(await shown(page, "Rear half spacing")), after);
  await page.getByRole("button", { name: "Undo" }).tap();
  await page.waitForFunction((before) => Number(document.querySelector('[role="slider"][aria-label="right rear half spacing"]').getAttribute("aria-valuenow")) === before, before);
  await fine(page);
});

test("a swipe that begins on a handle scrolls the page and moves nothing", async () => {
  const { page, handle, touch } = await byFinger();
  const [before, address] = [await value(handle), page.url()];
  const [x, y] = await middle(handle.locator(".knob"));
  await touch.down(x, y);
  for (let step = 1; step <= 10; step++) await touch.move(x, y - 12 * step);
  await touch.up();
  await page.waitForFunction(() => scrollY > 40);
  assert.equal(await value(handle), before);
  assert.equal(page.url(), address);
  await fine(page);
});

test("a handle that is pulled clearly sideways follows at once, and the page stays where it is", async () => {
  const { page, touch } = await byFinger();
  const sliders = page.getByRole("slider");
  const all = () => sliders.evaluateAll((all) => all.map((one) => one.getAttribute("aria-valuenow")).join());
  const before = await all();
  for (let i = 0; i < (await sliders.count()) && (await all()) === before; i++) {
    const [x, y] = await middle(sliders.nth(i).locator(".knob"));
    await touch.down(x, y);
    for (const across of [12, 24, 36]) await touch.move(x - across, y);
    await held(page);
    await frame(page);
    await touch.up();
  }
  assert.notEqual(await all(), before);
  assert.equal(await scrolled(page), 0);
  await fine(page);
});

test("a mouse has hold of a handle at once", async () => {
  const page = await open(at.browser, at.address);
  await stays(page);
  const handle = page.getByRole("slider", { name: "right rear half spacing" });
  await handle.waitFor();
  const before = await value(handle);
  const [x, y] = await middle(handle.locator(".knob"));
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y - 10);
  await frame(page);
  await page.mouse.up();
  assert.ok((await value(handle)) < before);
  await fine(page);
});

test("a handle that is pulled off the drawing stops at its limit", async () => {
  const { page, handle, touch } = await byFinger();
  const [x, y] = await grasp(page, handle, touch);
  for (const down of [100, 300, 700]) {
    await touch.move(x, Math.min(y + down, 840));
    await frame(page);
  }
  await touch.up();
  const now = await value(handle);
  assert.ok(now > 74 && now <= 250, `${now}`);
  await fine(page);
});

test("a drag that the device cuts short gives the old figure back, and the handle can be pulled again", async () => {
  const { page, handle, touch } = await byFinger();
  const pull = async () => {
    const [x, y] = await grasp(page, handle, touch);
    for (const down of [8, 16, 20]) {
      await touch.move(x, y + down);
      await frame(page);
    }
  };
  const before = await value(handle);
  await pull();
  assert.ok((await value(handle)) > before);
  await touch.cancel();
  await frame(page);
  assert.equal(await value(handle), before);
  assert.equal(Number(await shown(page, "Rear half spacing")), before);
  await pull();
  await touch.up();
  assert.ok((await value(handle)) > before);
  await fine(page);
});

test("beside the handles a finger on the drawing scrolls the page", async () => {
  const { page, touch } = await byFinger();
  const box = await page.locator("figure.drawing svg").first().boundingBox();
  const x = box.x + box.width * 0.45;
  const y = box.y + box.height * 0.85;
  await touch.down(x, y);
  for (let step = 1; step <= 10; step++) await touch.move(x, y - 12 * step);
  await touch.up();
  await page.waitForFunction(() => scrollY > 40);
  await fine(page);
});

const HALF_SPACING = 'text[data-topic="chainstays.right.front.half_spacing_mm"]';
const lit = (page) => page.waitForFunction((which) => document.querySelector(which).classList.contains("lit"), HALF_SPACING);

test("a tap on a figure of the drawing lights it there and opens its field", async () => {
  const { page } = await byFinger();
  await page.touchscreen.tap(...(await middle(page.locator(HALF_SPACING).last())));
  await lit(page);
  await page.getByRole("dialog", { name: "Front half spacing" }).waitFor();
  assert.equal(await page.locator(".figure-row.lit").getAttribute("data-name"), "Front half spacing");
  await fine(page);
});

test("a tap on a row lights its figure in the drawing", async () => {
  const { page } = await byFinger();
  await (await figureRow(page, "Front half spacing")).tap();
  await lit(page);
  await fine(page);
});

test("no figure lies under a handle, where a tap would not find it", async () => {
  const { page } = await byFinger();
  const covered = await page.locator(".marks text").evaluateAll((texts) =>
    texts.filter((text) => {
      const box = text.getBoundingClientRect();
      return document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2)?.closest(".handle");
    }).map((text) => text.textContent),
  );
  assert.deepEqual(covered, []);
});

test("where handles stand close together, the one under the finger is pulled", async () => {
  const { page, touch } = await byFinger();
  const sliders = () => page.locator('[role="slider"]').evaluateAll((all) => all.map((one) => [one.getAttribute("aria-label"), one.getAttribute("aria-valuenow")]));
  for (const pair of ["Chainstays", "Seat stays"]) {
    await stays(page, pair);
    await page.evaluate(() => scrollTo(0, 0));
    await page.locator("figure.drawing", { hasText: `Clamp plane, ${pair.toLowerCase()}` }).locator(".handle").first().waitFor();
    const names = (await sliders()).map(([name]) => name);
    assert.ok(names.length >= 6, names.join());
    for (const name of names) {
      const before = await sliders();
      const [x, y] = await grasp(page, page.getByRole("slider", { name, exact: true }), touch);
      for (let step = 1; step <= 3; step++) {
        await touch.move(x + 8 * step, y + 8 * step);
        await frame(page);
      }
      await touch.up();
      const changed = (await sliders()).filter(([, value], i) => value !== before[i][1]).map(([name]) => name.replace(/^(right|left) /, ""));
      assert.deepEqual([...new Set(changed)], [name.replace(/^(right|left) /, "")], `${pair}, ${name}`);
    }
  }
  await fine(page);
});
