// The drawings under a finger.
import { test } from "node:test";
import assert from "node:assert/strict";
import { PHONE, WIDE, bench, drawn, fine, open, row, stays, undo, value, view } from "./harness.mjs";

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

async function touched() {
  const page = await open(at.browser, at.address, PHONE);
  await stays(page);
  const handle = page.getByRole("slider", { name: "right rear half spacing" });
  await handle.waitFor();
  return { page, handle, touch: await finger(page) };
}

const now = async (handle) => Number(await handle.getAttribute("aria-valuenow"));
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

test("a handle on which a finger rested follows it, its row follows the handle, and the page stays where it is", async () => {
  const { page, handle, touch } = await touched();
  const before = await now(handle);
  const [x, y] = await grasp(page, handle, touch);
  for (let step = 1; step <= 12; step++) {
    await touch.move(x + 1, y - 2 * step);
    await frame(page);
  }
  const [, under] = await middle(handle.locator(".knob"));
  assert.ok(Math.abs(under - (y - 24)) < 3, `the handle is at ${under}, the finger at ${y - 24}`);
  assert.equal(await scrolled(page), 0);
  await touch.up();
  const after = await now(handle);
  assert.ok(after < before - 5, `${before} to ${after}`);
  assert.equal(Number(await value(page, "Rear half spacing")), after);
  await undo(page);
  await page.waitForFunction((before) => Number(document.querySelector('[role="slider"][aria-label="right rear half spacing"]').getAttribute("aria-valuenow")) === before, before);
  await fine(page);
});

test("a swipe that begins on a handle scrolls the page and moves nothing", async () => {
  const { page, handle, touch } = await touched();
  const [before, address] = [await now(handle), page.url()];
  const [x, y] = await middle(handle.locator(".knob"));
  await touch.down(x, y);
  for (let step = 1; step <= 10; step++) await touch.move(x, y - 12 * step);
  await touch.up();
  await page.waitForFunction(() => scrollY > 40);
  assert.equal(await now(handle), before);
  assert.equal(page.url(), address);
  await fine(page);
});

test("a handle that is pulled clearly sideways follows at once, and the page stays where it is", async () => {
  const { page, touch } = await touched();
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
  const page = await open(at.browser, at.address, WIDE);
  await stays(page);
  const handle = page.getByRole("slider", { name: "right rear half spacing" });
  await handle.waitFor();
  const before = await now(handle);
  const [x, y] = await middle(handle.locator(".knob"));
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y - 10);
  await frame(page);
  await page.mouse.up();
  assert.ok((await now(handle)) < before);
  await fine(page);
});

test("a handle that is pulled off the drawing stops at its limit", async () => {
  const { page, handle, touch } = await touched();
  const [x, y] = await grasp(page, handle, touch);
  for (const down of [100, 300, 700]) {
    await touch.move(x, Math.min(y + down, 840));
    await frame(page);
  }
  await touch.up();
  const stopped = await now(handle);
  assert.ok(stopped > 74 && stopped <= 250, `${stopped}`);
  await fine(page);
});

test("a drag that the device cuts short gives the old figure back, and the handle can be pulled again", async () => {
  const { page, handle, touch } = await touched();
  const pull = async () => {
    const [x, y] = await grasp(page, handle, touch);
    for (const down of [8, 16, 20]) {
      await touch.move(x, y + down);
      await frame(page);
    }
  };
  const before = await now(handle);
  await pull();
  assert.ok((await now(handle)) > before);
  await touch.cancel();
  await frame(page);
  assert.equal(await now(handle), before);
  assert.equal(Number(await value(page, "Rear half spacing")), before);
  await pull();
  await touch.up();
  assert.ok((await now(handle)) > before);
  await fine(page);
});

test("beside the handles a finger on the drawing scrolls the page", async () => {
  const { page, touch } = await touched();
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

test("a tap on a figure of the drawing lights it there and in the list, and opens its field", async () => {
  const { page } = await touched();
  await page.touchscreen.tap(...(await middle(page.locator(HALF_SPACING).last())));
  await lit(page);
  await page.getByRole("dialog", { name: "Front half spacing" }).getByRole("textbox").waitFor();
  assert.match(await row(page, "Front half spacing").getAttribute("class"), /\blit\b/);
  await fine(page);
});

test("a tap on a row lights its figure in the drawing, and the sheet that opens leaves the drawing free", async () => {
  const { page } = await touched();
  await row(page, "Front half spacing").tap();
  await lit(page);
  const sheet = await page.getByRole("dialog", { name: "Front half spacing" }).boundingBox();
  const drawing = await page.locator("figure.drawing svg").first().boundingBox();
  assert.ok(drawing.y + drawing.height <= sheet.y + 1, `${drawing.y + drawing.height} ${sheet.y}`);
  await fine(page);
});

test("no figure lies under a handle, where a tap would not find it", async () => {
  const { page } = await touched();
  const covered = await page.locator(".marks text").evaluateAll((texts) =>
    texts.filter((text) => {
      const box = text.getBoundingClientRect();
      return document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2)?.closest(".handle");
    }).map((text) => text.textContent),
  );
  assert.deepEqual(covered, []);
});

test("where handles stand close together, the one under the finger is pulled", async () => {
  const { page, touch } = await touched();
  const sliders = () => page.locator('[role="slider"]').evaluateAll((all) => all.map((one) => [one.getAttribute("aria-label"), one.getAttribute("aria-valuenow")]));
  for (const [pair, name] of [["Chain", "Chainstays"], ["Seat", "Seat stays"]]) {
    await view(page, "Top", pair);
    await page.evaluate(() => scrollTo(0, 0));
    await drawn(page, `The ${name.toLowerCase()} in their clamp plane`);
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
