// Once kept, the page needs no server.
import { test } from "node:test";
import assert from "node:assert/strict";
import { PHONE, PLACES, bench, drawn, enter, fine, go, job, kept, open, press, ready, serve, stop, value } from "./harness.mjs";

const at = bench();

/** A page that is kept, opened again after its server has stopped. */
async function cut(place = "") {
  const { server, address } = await serve();
  const page = await open(at.browser, address, PHONE);
  await kept(page);
  await stop(server);
  await page.goto("about:blank");
  await page.goto(address + place);
  await ready(page);
  return page;
}

test("all four places, an edit, and a reload", async () => {
  const page = await cut();
  await enter(page, "Chainstay length", "444");
  for (const place of PLACES) {
    await go(page, place);
    await page.getByRole("heading", { level: 1, name: place }).waitFor({ state: "attached" });
    assert.ok((await page.locator("main").innerText()).length > 100, place);
  }
  await go(page, "Design");
  await page.reload();
  await drawn(page, "444.00 mm");
  await fine(page);
});

test("the set-up card prints", async () => {
  const page = await cut();
  const paper = await page.pdf({ format: "A4" });
  assert.ok(paper.length > 20_000);
  await fine(page);
});

test("the view at the mill opens, ticks, and opens again after a reload", async () => {
  const page = await cut();
  await go(page, "Cut");
  await press(page, "At the mill");
  await press(page, "Done");
  await page.reload();
  await page.getByText(/^Step 2 of/).waitFor();
  await fine(page);
});

test("a job is opened from a link and from a file", async () => {
  const page = await cut("#AQAAAAAAAQAA8AYUA7Zq");
  // A link to a chainstay of 440 mm, as the page once wrote it: links are for ever.
  assert.equal(await value(page, "Chainstay length"), "440");
  await job(page);
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.getByText("Open job file").click()]);
  await chooser.setFiles({ name: "job.json", mimeType: "application/json", buffer: Buffer.from('{"format": 1, "frame": {"chainstay_length_mm": 417}}') });
  await drawn(page, "417.00 mm");
  await fine(page);
});

test("an address that names the page's file opens too", async () => {
  const page = await cut("index.html");
  await fine(page);
});
