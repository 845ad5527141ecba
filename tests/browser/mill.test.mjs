// The view at the mill: one step at a time.
import { test } from "node:test";
import assert from "node:assert/strict";
import { PHONE, another, axe, bench, enter, fine, go, kept, linked, open, part, press } from "./harness.mjs";

const at = bench();
const place = (page) => page.getByText(/^Step \d+ of \d+$/).innerText();
const task = (page) => page.getByRole("heading", { level: 1 }).innerText();
const done = (page) => page.getByRole("button", { name: /^Done/ });

/** The steps whose tick is set. */
const ticked = (page) => page.locator(".step-item.done").count();
const step = (page, words) => page.locator(".step-item").filter({ hasText: words }).first();

async function mill() {
  const page = await open(at.browser, at.address, PHONE);
  await go(page, "Cut");
  await press(page, "At the mill");
  await page.getByText("Step 1 of").waitFor();
  return page;
}

test("one step is shown at a time, its figure large, nothing cut off, every button for a glove", async () => {
  const page = await mill();
  const [, count] = (await place(page)).match(/of (\d+)/);
  assert.ok(Number(count) > 20);
  for (let step = 1; ; step++) {
    assert.equal(await place(page), `Step ${step} of ${count}`);
    assert.equal(await page.getByRole("heading").count(), 1);
    const figure = page.locator(".mill-figure");
    if (await figure.count()) {
      assert.ok(parseFloat(await figure.evaluate((one) => getComputedStyle(one).fontSize)) >= 40);
      const box = await figure.boundingBox();
      assert.ok(box.x >= 0 && box.x + box.width <= 390, `${await task(page)} is cut off`);
    }
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth) <= 390);
    if (step === Number(count)) break;
    await press(page, "Next");
  }
  assert.ok(await page.getByRole("button", { name: "Next" }).isDisabled());
  for (const name of ["Previous", "Next"]) assert.ok((await page.getByRole("button", { name }).boundingBox()).height >= 48);
  assert.ok((await done(page).boundingBox()).height >= 48);
  await fine(page);
});

test("the figure at the mill is the one in the list", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await go(page, "Cut");
  const listed = await step(page, "Set the slide").locator(".reading").innerText();
  await press(page, "At the mill");
  while (!/^Set the slide/.test(await task(page))) await press(page, "Next");
  assert.equal((await page.locator(".mill-figure").innerText()).replace(/\s+/g, " "), listed.replace(/\s+/g, " "));
  await fine(page);
});

test("next, previous, and done goes on and can be taken back", async () => {
  const page = await mill();
  assert.ok(await page.getByRole("button", { name: "Previous" }).isDisabled());
  const first = await task(page);
  await press(page, "Next");
  assert.notEqual(await task(page), first);
  await press(page, "Previous");
  assert.equal(await task(page), first);
  await done(page).tap();
  assert.match(await place(page), /^Step 2 /);
  await press(page, "Previous");
  assert.equal(await done(page).getAttribute("aria-pressed"), "true");
  await done(page).tap();
  assert.equal(await done(page).getAttribute("aria-pressed"), "false");
  assert.match(await place(page), /^Step 1 /);
  await fine(page);
});

test("place and ticks survive a reload, and closing leads to the first step not done", async () => {
  const page = await mill();
  for (let step = 0; step < 3; step++) await done(page).tap();
  await press(page, "Next");
  await page.reload();
  await page.getByText("Step 5 of").waitFor();
  await press(page, "Close");
  assert.match(await page.locator(".progress").innerText(), /^3 of \d+ steps/);
  await press(page, "At the mill");
  assert.match(await place(page), /^Step 4 /);
  await fine(page);
});

test("a whole job by touch, closed and opened again in the middle without a network", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await kept(page);
  await go(page, "Cut");
  await press(page, "At the mill");
  await page.getByText("Step 1 of").waitFor();
  const count = Number((await place(page)).match(/of (\d+)/)[1]);
  const half = Math.floor(count / 2);
  for (let step = 1; step <= half; step++) {
    assert.equal(await place(page), `Step ${step} of ${count}`);
    await done(page).tap();
  }
  const there = await task(page);
  const context = page.context();
  await page.close();
  await context.setOffline(true);
  const again = await another(context, at.address, () => {});
  await again.getByText(`Step ${half + 1} of ${count}`).waitFor();
  assert.equal(await task(again), there);
  for (let step = half + 1; step < count; step++) {
    await done(again).tap();
    await again.getByText(`Step ${step + 1} of`).waitFor();
  }
  await done(again).tap();
  assert.equal(await done(again).getAttribute("aria-pressed"), "true");
  assert.equal(await again.getByRole("progressbar", { name: "Steps done" }).getAttribute("value"), String(count));
  await press(again, "Close");
  await again.getByText(`${count} of ${count} steps`).waitFor();
  await fine(again);
});

test("opened again at the mill the step is there before anybody has answered", async () => {
  const page = await mill();
  for (let step = 0; step < 3; step++) await done(page).tap();
  const there = await task(page);
  const context = page.context();
  await page.close();
  // A worker that never answers.
  await context.addInitScript(() => { window.Worker = class { postMessage() {} }; });
  const again = await another(context, at.address, () => {});
  await again.getByText(/^Step 4 of/).waitFor();
  assert.equal(await task(again), there);
  await fine(again);
});

test("the cutting steps give speed, and their cautions tell their source when asked", async () => {
  const page = await mill();
  while (!/^Cut the front/.test(await task(page))) await press(page, "Next");
  assert.match(await page.locator(".mill-figure").innerText(), /^\d+\s*rpm$/);
  const caution = page.locator("details.caution").filter({ hasText: "Eye protection" });
  assert.ok(!(await caution.getByText(/^Source:/).isVisible()));
  await caution.locator("summary").tap();
  await caution.getByText(/29 CFR 1910.212/).waitFor();
  await fine(page);
});

test("no accessibility fault at the mill, in light and dark, and lying on its side", async () => {
  for (const colorScheme of ["light", "dark"]) {
    const page = await open(at.browser, at.address, { ...PHONE, colorScheme });
    await go(page, "Cut");
    await press(page, "At the mill");
    assert.deepEqual(await axe(page), [], colorScheme);
    while (!/^Set the slide/.test(await task(page))) await press(page, "Next");
    await page.setViewportSize({ width: 844, height: 390 });
    assert.ok(await page.locator(".mill-figure").isVisible());
    await fine(page);
  }
});

test("an edit elsewhere leaves ticks; one that changes a ticked setting says by how much, and its undo ticks it again", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await linked(page);
  await go(page, "Cut");
  await step(page, "Set the slide").waitFor();
  const boxes = await page.locator(".step-item").getByRole("checkbox").all();
  for (const box of boxes) await box.check();
  await part(page, "Seat stays");
  await enter(page, "Wall", "0.9");
  await part(page, "Chainstays");
  await go(page, "Cut");
  await step(page, "Set the slide").waitFor();
  assert.equal(await ticked(page), boxes.length);
  await enter(page, "Chainstay length", "416.5");
  await go(page, "Cut");
  const said = step(page, "Set the slide").getByText(/^No longer done: it was set [\d.]+ mm (less|more)\.$/);
  await said.waitFor();
  assert.equal(await step(page, "Set the slide").getByRole("checkbox").isChecked(), false);
  // What rests on the slide is no longer done either.
  assert.equal(await step(page, /^Clamp/).getByRole("checkbox").isChecked(), false);
  await press(page, "Undo");
  await said.waitFor({ state: "detached" });
  await page.waitForFunction((count) => document.querySelectorAll(".step-item.done").length === count, boxes.length);
  await page.reload();
  await step(page, "Set the slide").waitFor();
  assert.equal(await ticked(page), boxes.length);
  await fine(page);
});

test("clearing ticks asks first and can be undone", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await linked(page);
  await go(page, "Cut");
  await step(page, "Set the slide").getByRole("checkbox").check();
  await press(page, "Clear ticks");
  await press(page, "Keep them");
  assert.equal(await ticked(page), 1);
  await press(page, "Clear ticks");
  await press(page, "Take them away");
  await page.getByText("Ticks taken away: 1.").waitFor();
  assert.equal(await ticked(page), 0);
  await press(page, "Bring the ticks back");
  await page.locator(".step-item.done").first().waitFor();
  assert.equal(await ticked(page), 1);
  await fine(page);
});
