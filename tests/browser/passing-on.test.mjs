// The job as a link and as a file: out, in, and whatever else is put there.
import { test } from "node:test";
import assert from "node:assert/strict";
import { readFileSync, statSync } from "node:fs";
import { PHONE, another, bench, close, drawn, enter, figure, fine, job, linked, open, press, said, settled } from "./harness.mjs";

const at = bench();
const paste = async (page, text) => (await figure(page, "Open a link")).fill(text);
const fault = (page) => page.getByRole("alert").filter({ hasText: "cannot be opened" });
const notice = (page) => page.getByRole("status").filter({ hasText: /job file|link is/i }).first();

/** A page with a job of its own, half of it not settled yet. */
async function own() {
  const page = await open(at.browser, at.address, PHONE);
  await enter(page, "Job name", "Mine");
  await enter(page, "Chainstay length", "444");
  return page;
}

const stillOwn = async (page, link) => {
  assert.equal(page.url(), link);
  assert.match(await said(page), /chainstay length 444\.00 mm/);
  assert.equal(await (await figure(page, "Job name")).inputValue(), "Mine");
  await close(page);
};

async function strangeLink(name, value) {
  const page = await open(at.browser, at.address, PHONE);
  const link = await enter(page, name, value);
  await fine(page);
  return link;
}

test("a good link is opened, and undo brings the last job back", async () => {
  const link = await strangeLink("Bottom bracket drop", "63");
  for (const text of [` \n${link}\n `, link.split("#")[1]]) {
    const page = await own();
    const mine = page.url();
    await paste(page, text);
    await press(page, "Open");
    await drawn(page, "drop 63.00 mm");
    assert.equal(await (await figure(page, "Open a link")).inputValue(), "");
    await settled(page, mine);
    await press(page, "Undo");
    await drawn(page, "chainstay length 444.00 mm");
    await stillOwn(page, mine);
    await fine(page);
  }
});

test("a damaged link, markup, another page's address and a huge text are refused in words, and nothing is lost", async () => {
  const link = await strangeLink("Bottom bracket drop", "63");
  const page = await own();
  const mine = page.url();
  const swapped = link.replace(/(.)(.)$/, "$2$1") === link ? `${link}A` : link.replace(/(.)(.)$/, "$2$1");
  for (const text of [link.slice(0, -3), swapped, "<img src=x onerror=alert(1)>", "javascript:alert(1)", "https://example.org/#job", "#", "\u0000\uffff😀", "A".repeat(1_000_000)]) {
    await paste(page, text);
    await press(page, "Open");
    await fault(page).waitFor();
    assert.match(await fault(page).innerText(), /Nothing was changed/);
    assert.equal(await page.locator("#app img").count(), 0);
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 390);
    await stillOwn(page, mine);
  }
  await fine(page);
});

test("a link is copied whole", async () => {
  const page = await own();
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"], { origin: new URL(at.address).origin });
  await job(page);
  await press(page, "Copy link");
  await page.getByText("The link is copied.").waitFor();
  assert.equal(await page.evaluate(() => navigator.clipboard.readText()), page.url());
  await fine(page);
});

test("without a clipboard the page says what to do instead", async () => {
  const context = await at.browser.newContext(PHONE);
  await context.addInitScript(() => Object.defineProperty(Navigator.prototype, "clipboard", { get: () => undefined }));
  const page = await context.newPage();
  await page.goto(at.address);
  await job(page);
  await press(page, "Copy link");
  await page.getByText("copy the page's address instead").waitFor();
  await context.close();
});

async function saved(page) {
  await job(page);
  const [download] = await Promise.all([page.waitForEvent("download"), press(page, "Save job file")]);
  return { name: download.suggestedFilename(), file: await download.path() };
}

const choose = async (page, file) => {
  await job(page);
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.getByText("Open job file").click()]);
  await chooser.setFiles(file);
};

test("a job file is saved and opened again, in another browser too", async () => {
  const page = await own();
  const mine = page.url();
  const { name, file } = await saved(page);
  assert.equal(name, "mine.staywright.json");
  assert.equal(JSON.parse(readFileSync(file, "utf8")).frame.chainstay_length_mm, 444);
  const other = await open(at.browser, at.address, PHONE);
  await linked(other);
  await choose(other, file);
  await drawn(other, "chainstay length 444.00 mm");
  await other.getByText("The job file is opened.").waitFor();
  await other.waitForFunction((hash) => location.hash === hash, new URL(mine).hash);
  await fine(other);
  await fine(page);
});

test("a damaged file, a file of another kind and a file of 5 MB are refused in words, and nothing is lost", async () => {
  const page = await own();
  const mine = page.url();
  const { file } = await saved(page);
  const good = readFileSync(file, "utf8");
  assert.ok(statSync(file).size < 10_000);
  const files = {
    "half": good.slice(0, good.length / 2),
    "out of range": good.replace("444", "9999"),
    "null in it": good.replace("444", "null"),
    "1e999": good.replace("444", "1e999"),
    "later format": good.replace(/"format": 1/, '"format": 9'),
    "unknown key": good.replace("chainstay_length_mm", "chainstay_lenght_mm"),
    "empty": "",
    "a list": "[1, 2]",
    "deep": "[".repeat(200_000),
    "no text": Buffer.from([0, 1, 2, 255, 254, 128]),
    "markup": "<script>alert(1)</script>",
    "5 MB": Buffer.alloc(5_000_000, 32),
    "almost 1 MB": JSON.stringify({ format: 1, notes: "x".repeat(990_000) }),
  };
  for (const [name, content] of Object.entries(files)) {
    await choose(page, { name: "job.json", mimeType: "application/json", buffer: Buffer.from(content) });
    await page.getByText("The job file was not opened").waitFor();
    const words = await notice(page).innerText();
    assert.match(words, /Nothing was changed/, name);
    assert.ok(words.length < 400, `${name}: ${words.length} characters`);
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 390, name);
    await stillOwn(page, mine);
    await page.locator(".notice").getByRole("button", { name: "Close" }).click();
  }
  await fine(page);
});

test("the newest word on what was opened stands alone", async () => {
  const page = await own();
  const { file } = await saved(page);
  const link = page.url();
  const words = () => page.getByText(/is opened|cannot be opened|was not opened/).allInnerTexts();
  await paste(page, link);
  await press(page, "Open");
  await page.getByText("The link is opened").waitFor();
  await paste(page, link.slice(0, -3));
  await press(page, "Open");
  await fault(page).waitFor();
  assert.equal((await words()).length, 1, "a bad link after a good one");
  await choose(page, file);
  await page.getByText("The job file is opened").waitFor();
  assert.equal((await words()).length, 1, "a good file after a bad link");
  await fine(page);
});

test("all faults of a job file are told, each with its value and what belongs there", async () => {
  const page = await own();
  const put = (text) => choose(page, { name: "job.json", mimeType: "application/json", buffer: Buffer.from(text) });
  await put('{"format":1,"bogus":1,"frame":{"chainstay_length_mm":1,"seat_angle_deg":"x<b>"},"name":7}');
  await notice(page).getByRole("listitem").first().waitFor();
  const told = await notice(page).getByRole("listitem").allInnerTexts();
  assert.equal(told.length, 4);
  assert.ok(told.some((one) => one === "frame.seat_angle_deg: a number from 45 to 90° belongs here, not “x<b>”."), told.join("|"));
  assert.ok(told.some((one) => one === "frame.chainstay_length_mm: chainstay length 1 mm is outside 250 to 800 mm."));
  await put("");
  await page.getByText("The job file was not opened: it is empty. Nothing was changed.").waitFor();
  await fine(page);
});

test("the same file can be chosen twice", async () => {
  const page = await own();
  const { file } = await saved(page);
  await enter(page, "Chainstay length", "450");
  await choose(page, file);
  await drawn(page, "444.00 mm");
  await enter(page, "Chainstay length", "451");
  await choose(page, file);
  await drawn(page, "444.00 mm");
  await fine(page);
});
