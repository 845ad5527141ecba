// Small screens, large text, long names.
import { test } from "node:test";
import assert from "node:assert/strict";
import { PARTS, PHONE, PLACES, WIDE, bench, close, field, findings, fine, go, job, linked, menu, open, openFigure, part, press, stays, type, value } from "./harness.mjs";

const at = bench();
const SMALL = { ...PHONE, viewport: { width: 320, height: 568 } };
/** How far the page is wider than its screen, in px. */
const over = (page) => page.evaluate((width) => document.documentElement.scrollWidth - width, page.viewportSize().width);
/** Words that stick out of the button, label or figure they stand in, or off the screen. */
const sticking = (page) =>
  page.evaluate((width) => {
    const marks = [...document.querySelectorAll("button, label, legend, dt, dd, .reading, .unit, h2, h3, p, .mill-figure")];
    const out = (one) => {
      const box = one.getBoundingClientRect();
      return box.width > 1 && (box.right > width + 1 || box.left < -1 || one.scrollWidth > one.clientWidth + 2 && getComputedStyle(one).display !== "inline");
    };
    return marks.filter((one) => one.checkVisibility() && !one.closest(".hidden, svg") && !one.matches(".hidden") && out(one)).map((one) => `${one.tagName} ${one.className}: ${one.textContent.slice(0, 40)}`);
  }, page.viewportSize().width);

async function everywhere(page, look) {
  for (const place of PLACES) {
    await go(page, place);
    await look(place);
  }
  for (const name of PARTS) {
    await part(page, name);
    await look(name);
  }
  const sheets = { "from above": stays, "a figure": (page) => openFigure(page, "Slot clearance"), "the job": job, "the menu": menu, "the findings": findings };
  for (const [what, show] of Object.entries(sheets)) {
    await show(page);
    await look(what);
  }
  await go(page, "Cut");
  await press(page, "At the mill");
  for (let step = 0; step < 10; step++) {
    await look(`the mill, step ${step + 1}`);
    await press(page, "Next");
  }
  await press(page, "Close");
}

test("320 px wide: nothing is cut off, nothing scrolls sideways", async () => {
  const page = await open(at.browser, at.address, SMALL);
  await everywhere(page, async (where) => {
    assert.equal(await over(page), 0, where);
    assert.deepEqual(await sticking(page), [], where);
  });
  await fine(page);
});

test("text at 200 %: nothing is cut off, nothing scrolls sideways", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
  await everywhere(page, async (where) => {
    assert.equal(await over(page), 0, where);
    assert.deepEqual(await sticking(page), [], where);
  });
  await fine(page);
});

test("a page enlarged four times is read in one column", async () => {
  // WCAG 2.2, 1.4.10: 1280 px at 400 % are 320 px.
  const page = await open(at.browser, at.address, { viewport: { width: 320, height: 256 }, deviceScaleFactor: 4 });
  for (const place of PLACES) {
    await go(page, place);
    assert.equal(await over(page), 0, place);
  }
  await fine(page);
});

const NAMES = { "without a space": "W".repeat(120), "in emoji": "🛠️🚲".repeat(30), "that turns round": `\u202e${"shop".repeat(20)}\u202c`, "in two directions": "שלדה 12 أنبوب 34 frame", "with marks upon marks": `a${"\u0301".repeat(100)}`, "with control signs": "a\u0000b\u0007\u200b\ufeff" };
for (const [kind, name] of Object.entries(NAMES))
  test(`a name ${kind} is kept as it is, in the link too, and keeps within the page`, async () => {
    const page = await open(at.browser, at.address, SMALL);
    await linked(page);
    const link = page.url();
    await (await openFigure(page, "Job name")).fill(name);
    await page.keyboard.press("Tab");
    await page.waitForFunction((link) => location.href !== link, link);
    assert.equal(await over(page), 0);
    const other = await open(at.browser, page.url(), SMALL);
    assert.equal(await value(other, "Job name"), await value(page, "Job name"));
    assert.equal(await over(other), 0);
    await fine(other);
    await fine(page);
  });

test("a name that is too long is refused with its limit, and stays to be mended", async () => {
  const page = await open(at.browser, at.address, SMALL);
  await linked(page);
  const link = page.url();
  await (await openFigure(page, "Job name")).fill("W".repeat(100_000));
  await page.getByText(/120/).first().waitFor();
  await page.waitForTimeout(600);
  assert.equal(page.url(), link);
  await field(page, "Job name").fill("Short");
  await page.waitForFunction((link) => location.href !== link, link);
  await fine(page);
});

test("notes of 2000 characters fit in a link, and their card prints", async () => {
  const page = await open(at.browser, at.address, SMALL);
  await linked(page);
  await (await openFigure(page, "Notes")).fill("notes with ü and 長い ".repeat(100));
  await page.keyboard.press("Tab");
  await page.waitForFunction(() => location.hash.length > 2000);
  const other = await open(at.browser, page.url(), SMALL);
  assert.equal((await value(other, "Notes")).length, 2000);
  assert.ok((await other.pdf({ format: "A4" })).length > 20_000);
  await fine(other);
  await fine(page);
});

test("what does not follow a faulty field says so on the first screen of every place", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await type(page, "Chainstay length", "abc");
  const marks = page.getByText("Not following: chainstay length").filter({ visible: true });
  for (const place of PLACES) {
    await go(page, place);
    await page.evaluate(() => window.scrollTo(0, 0));
    const { y, height } = await marks.first().boundingBox();
    assert.ok(y >= 0 && y + height < 500, `${place}: ${y}`);
    // The steps are far below, and have a mark of their own.
    assert.equal(await marks.count(), place === "Cut" ? 2 : 1, place);
    assert.ok((await page.getByRole("status").filter({ hasText: "Not following" }).count()) === 1, place);
  }
  await fine(page);
});

test("a name that is too long leaves the last good one in the header, in one line", async () => {
  const page = await open(at.browser, at.address, PHONE);
  const name = await openFigure(page, "Job name");
  const shown = page.locator(".bar-name");
  await name.fill("Heron");
  await shown.getByText("Heron").waitFor();
  const { height } = await shown.boundingBox();
  await name.fill("x".repeat(500));
  await page.getByText("The job's name has 500 characters; at most 120 fit.").waitFor();
  assert.equal(await shown.innerText(), "Heron");
  await name.fill("long ".repeat(24).trim());
  await shown.getByText("long long").waitFor();
  assert.equal((await shown.boundingBox()).height, height);
  await fine(page);
});
