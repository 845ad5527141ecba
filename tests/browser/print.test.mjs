// The set-up card on paper, read back by tools that know nothing of the page.
import { after, test } from "node:test";
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { PHONE, WIDE, another, bench, close, enter, field, figure, fine, go, job, linked, open, press, settled, stays, steps } from "./harness.mjs";

const at = bench();
const folder = mkdtempSync(path.join(os.tmpdir(), "staywright-"));
after(() => rmSync(folder, { recursive: true }));

const run = (tool, ...words) => execFileSync(tool, words, { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] });
/** The text of each page of a card, its lines' spaces made one. */
const texts = (file) => run("pdftotext", "-layout", file, "-").split("\f").slice(0, -1).map((page) => page.replace(/\s+/g, " "));

async function card(page, format) {
  const file = path.join(folder, `${format}-${page.viewportSize().width}.pdf`);
  writeFileSync(file, await page.pdf({ format }));
  return file;
}

/** What the codes on a card say. */
function codes(file) {
  const stem = file.replace(/\.pdf$/, "");
  run("pdftoppm", "-r", "150", "-gray", "-png", file, stem);
  const last = run("pdfinfo", file).match(/Pages:\s+(\d+)/)[1];
  return run("zbarimg", "--quiet", "--raw", `${stem}-${last}.png`).trim().split("\n");
}

for (const [format, options] of [["A4", PHONE], ["Letter", PHONE], ["A4", WIDE]])
  test(`the card on ${format}, printed from ${options === PHONE ? "a phone" : "a wide screen"}`, async () => {
    const page = await open(at.browser, at.address, options);
    const before = await linked(page);
    await job(page);
  await page.getByText("Start another job").click();
    await press(page, /^Heron Mill/);
    await close(page);
    const address = await settled(page, before);
    await steps(page);
    // The first step's figure, as the page shows it.
    const slide = await page.getByRole("listitem").filter({ hasText: "Set the slide" }).locator(".reading").innerText();
    const file = await card(page, format);
    const pages = texts(file);
    assert.ok(pages.length <= 2, `${pages.length} pages`);
    assert.ok(pages.every((text) => text.trim().length > 40), "a page is blank");
    const all = pages.join(" ");
    const wanted = ["Heron Mill all-road", slide, "⌀ 40 mm", "⌀ 28.6 mm", "Set the posts", "post 1", "post 2", "Cut the front ends", "Slot the right stay", "Slot the left stay", "Caution. Eye protection on", "On the finished stays", "Tip to tip", "Clamp plane, chainstays", "Clamp plane, seat stays", "Fixture on the table", "ISO 4210"];
    for (const words of wanted) assert.ok(all.replaceAll("\u202f", " ").includes(words), `${words} is not on the card`);
    assert.deepEqual(codes(file), [address]);
    await fine(page);
  });

const STARTERS = ["Tern Lane road", "Heron Mill all-road", "Quay Street fixed", ""];

/** Opens the starting job of that name, the plain one without any, in the example shop if wanted; its address. */
async function starting(page, name, inShop) {
  let address = await linked(page);
  if (name) {
    await job(page);
  await page.getByText("Start another job").click();
    await press(page, new RegExp(`^${name}`));
    await close(page);
    address = await settled(page, address);
  }
  await steps(page);
  await page.locator(".step-item").first().waitFor();
  if (inShop) {
    await go(page, "Shop");
    await page.locator("summary").filter({ hasText: "This shop" }).click();
    await page.locator("summary").filter({ hasText: "Start from a list" }).click();
    await press(page, "Take the example shop");
    await steps(page);
    await page.locator(".step-item").filter({ hasText: "Gap with this saw" }).first().waitFor();
  }
  return address;
}

for (const format of ["A4", "Letter"])
  for (const [number, name] of STARTERS.entries())
    test(`the card of ${name || "a plain job"} is two pages of ${format} at most, and its code is that job`, async () => {
      const page = await open(at.browser, at.address, PHONE);
      const address = await starting(page, name, number < 3);
      const file = await card(page, format);
      const pages = texts(file);
      assert.ok(pages.length <= 2, `${pages.length} pages`);
      assert.deepEqual(codes(file), [address]);
      const all = pages.join(" ");
      for (const words of ["Cutter", "Spindle", "rpm", "Caution."]) assert.ok(all.includes(words), `${words} is not on the card`);
      await fine(page);
    });

test("the drawings on the card carry their figures", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await enter(page, "Chainstay length", "417.3");
  const [first] = texts(await card(page, "A4"));
  assert.match(first, /417\.30.*Clamp plane, chainstays/);
  await fine(page);
});

test("once printed, the page is as it was", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await card(page, "A4");
  assert.equal(await page.locator("article.card").count(), 0);
  await enter(page, "Chainstay length", "444");
  await fine(page);
});

test("a card of a job with warnings carries them", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await enter(page, "Tyre width", "100");
  await stays(page);
  await enter(page, "Front half spacing", "8");
  await close(page);
  await page.locator(".status.stop, .status.look").waitFor();
  await page.locator(".status-button").click();
  const warning = await page.getByRole("list", { name: "Findings" }).locator("li span").nth(1).innerText();
  assert.ok(warning.length > 20);
  const all = texts(await card(page, "A4")).join(" ");
  assert.ok(all.includes(warning.slice(-40)), warning);
  await fine(page);
});

test("a card that does not follow a field says so", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await (await figure(page, "Chainstay length")).fill("41");
  const all = texts(await card(page, "A4")).join(" ");
  assert.match(all, /Not following: chainstay length/);
  await fine(page);
});

test("the notes keep their lines on the card", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await (await figure(page, "Notes")).fill("left side first\nsecond line");
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  const notes = page.locator(".card-notes");
  await notes.waitFor({ state: "attached" });
  await page.emulateMedia({ media: "print" });
  assert.equal(await notes.evaluate((one) => getComputedStyle(one).whiteSpace), "pre-line");
  await fine(page);
});
