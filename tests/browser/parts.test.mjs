// The page's wasm comes in two parts: a first visit works with the first alone, and whatever needs the rest waits for it.
import { test } from "node:test";
import assert from "node:assert/strict";
import { PHONE, PLACES, WIDE, bench, drawn, enter, field, fine, go, open, press, ready, watch } from "./harness.mjs";

const at = bench();

/** A page whose requests for the rest fail as long as `lost(how many there were)`; and those requests. */
async function torn(options, lost, address = at.address) {
  const context = await at.browser.newContext(options);
  const page = watch(await context.newPage(), address);
  const asked = [];
  await page.route(/\/rest\.\w+\.wasm$/, (route) => (lost(asked.push(route)) ? route.abort() : route.continue()));
  const first = page.waitForRequest(/\/rest\.\w+\.wasm$/);
  await page.goto(address);
  await ready(page);
  await first;
  return { page, asked };
}

for (const [size, options] of [["a phone", PHONE], ["a desk", WIDE]]) {
  test(`a first visit on ${size} looks, types and takes back without the rest`, async () => {
    const { page, asked } = await torn(options, () => true);
    const fields = await page.locator("main input[inputmode]").all();
    assert.ok(fields.length > 8);
    for (const each of fields) await each.press("ArrowUp");
    await enter(page, "Chainstay length", "431.5");
    await drawn(page, "431.50 mm");
    await press(page, "Undo");
    await press(page, "Redo");
    await drawn(page, "431.50 mm");
    await page.waitForTimeout(500);
    assert.equal(asked.length, 1, "something of a first visit needs the rest: see later.txt");
    await page.context().close();
  });
}

test("what needs the rest before it is there waits for it", async () => {
  const { page, asked } = await torn(PHONE, (count) => count === 1);
  for (const place of PLACES) {
    await go(page, place);
    await page.getByRole("heading", { level: 1, name: place }).waitFor({ state: "attached" });
    assert.ok((await page.locator("main").innerText()).length > 200, place);
  }
  assert.equal(asked.length, 2);
  page.wrongs.splice(0, page.wrongs.length, ...page.wrongs.filter((wrong) => !/Failed to load resource/.test(wrong)));
  await fine(page);
});

test("a page that cannot have the rest says so, and the job is still there after a reload", async () => {
  const { page } = await torn(PHONE, () => true);
  await enter(page, "Chainstay length", "431.5");
  await drawn(page, "431.50 mm");
  await page.waitForTimeout(1000);
  await go(page, "Stays");
  await page.getByRole("alert").filter({ hasText: "Part of the page has not arrived" }).waitFor();
  await page.unroute(/\/rest\.\w+\.wasm$/);
  await page.reload();
  await ready(page);
  await go(page, "Frame");
  assert.equal(await field(page, "Chainstay length").inputValue(), "431.5");
  await page.context().close();
});
