// Jobs to start from.
import { test } from "node:test";
import assert from "node:assert/strict";
import { PHONE, PLACES, bench, drawn, enter, fine, go, linked, open, said, settled, start, type, undo, value } from "./harness.mjs";

const at = bench();
/** What each of them says of its chainstay; the figures of src/model/starters.rs as a builder would look for them. */
const JOBS = [["Tern Lane road", "415.00"], ["Heron Mill all-road", "435.00"], ["Quay Street fixed", "405.00"], ["Start from nothing", "430.00"]];

async function started(page, name) {
  const before = await linked(page);
  await start(page, name);
  return settled(page, before);
}

for (const [name, length] of JOBS)
  test(`${name}: opens, has a short link, is whole in every place, and undo brings the last job back`, async () => {
    const page = await open(at.browser, at.address, PHONE);
    await enter(page, "Chainstay length", "444");
    await enter(page, "Job name", "Mine");
    const mine = page.url();
    const link = await started(page, name);
    await drawn(page, `chainstay length ${length} mm`);
    assert.ok(link.length < 300, `${link.length} characters`);
    assert.equal(await value(page, "Job name"), name === "Start from nothing" ? "" : name);
    for (const place of PLACES) {
      await go(page, place);
      assert.equal(await page.getByText("Not following").count(), 0);
      assert.ok(!/NaN|Infinity|undefined/.test(await page.locator("main").innerText()), place);
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth) <= 390, place);
    }
    await go(page, "Design");
    await undo(page);
    await drawn(page, "chainstay length 444.00 mm");
    assert.equal(await value(page, "Job name"), "Mine");
    assert.equal(page.url(), mine);
    await fine(page);
  });

test("a link of a starting job opens the same in another browser", async () => {
  const page = await open(at.browser, at.address, PHONE);
  const link = await started(page, "Quay Street fixed");
  const other = await open(at.browser, link, PHONE);
  assert.equal(await said(other), await said(page));
  await fine(other);
  await fine(page);
});

test("what was half-typed when another job is opened comes back with undo", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await linked(page);
  await type(page, "Chainstay length", "444");
  await start(page, "Tern Lane road");
  await page.getByRole("dialog").waitFor({ state: "detached" });
  await drawn(page, "415.00 mm");
  await undo(page);
  await drawn(page, "444.00 mm");
  await fine(page);
});
