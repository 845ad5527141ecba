// Whatever is worked out off the main thread belongs to the plan in view, or is not shown; and a worker that breaks down is replaced.
import { test } from "node:test";
import assert from "node:assert/strict";
import { PHONE, bench, enter, figure, fine, go, job, linked, menu, mill, part, press, ready, shown, steps, watch } from "./harness.mjs";

const at = bench();

/** Keeps the page's workers in `window.workers` and counts the questions put to them; while `window.held` is a list, questions wait in it. */
const overseen = () => {
  window.workers = [];
  window.put = 0;
  window.Worker = class extends Worker {
    constructor(...words) {
      super(...words);
      window.workers.push(this);
    }
    postMessage(message) {
      if (message.question) window.put += 1;
      if (window.held && message.question) window.held.push(() => super.postMessage(message));
      else super.postMessage(message);
    }
  };
};

async function visit(script = overseen) {
  const context = await at.browser.newContext(PHONE);
  await context.addInitScript(script);
  const page = watch(await context.newPage(), at.address);
  page.setDefaultTimeout(20000);
  return page;
}

async function opened() {
  const page = await visit();
  await page.goto(at.address);
  await ready(page);
  await linked(page);
  return page;
}

const hold = (page) => page.evaluate(() => void (window.held = []));
const release = (page) =>
  page.evaluate(() => {
    const held = window.held;
    window.held = null;
    held.forEach((post) => post());
  });
const slide = (page) => page.locator(".step-item").filter({ hasText: "slide" }).first().locator(".reading");

test("steps of an earlier job are never seen", async () => {
  const page = await opened();
  await steps(page);
  await slide(page).waitFor();
  await go(page, "Design");
  await hold(page);
  await enter(page, "Chainstay length", "431.5");
  await steps(page);
  await page.locator(".settings.behind").waitFor({ state: "attached" });
  for (const step of await page.locator(".step-item").all()) assert.equal(await step.isVisible(), false);
  for (const setting of await page.locator(".setting").all()) assert.equal(await setting.isVisible(), false);
  assert.doesNotMatch(await page.locator("main").innerText(), /steps done/);
  await release(page);
  await slide(page).filter({ hasText: "431.5" }).waitFor();
  await page.waitForFunction(() => !document.querySelector(".behind"));
  await fine(page);
});

test("at the mill an undone figure takes its steps with it", async () => {
  const page = await opened();
  await enter(page, "Chainstay length", "431.5");
  await steps(page);
  await slide(page).filter({ hasText: "431.5" }).waitFor();
  await mill(page);
  await page.locator(".mill-step").waitFor();
  await hold(page);
  await page.goBack();
  await page.getByText("The steps are being worked out").waitFor();
  assert.equal(await page.locator(".mill-step").count(), 0);
  await release(page);
  await page.locator(".mill-step").waitFor();
  await fine(page);
});

test("the card that is asked for right after an edit is printed once, with the steps of the new job", async () => {
  const page = await opened();
  await page.evaluate(() => {
    window.printed = [];
    window.print = () => window.printed.push(document.querySelector(".card").textContent);
  });
  await steps(page);
  const before = await slide(page).innerText();
  await go(page, "Design");
  await hold(page);
  await enter(page, "Chainstay length", "431.5");
  await steps(page);
  await press(page, "Set-up card");
  await page.getByText("The card is printed as soon as its steps are worked out.").waitFor();
  assert.deepEqual(await page.evaluate(() => window.printed), []);
  // The browser's own command cannot wait: the card says that it is not whole.
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  const card = page.locator(".card");
  await card.waitFor({ state: "attached" });
  assert.match(await card.textContent(), /this card is not whole/);
  assert.equal(await card.locator(".card-part").count(), 0);
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  await press(page, "Set-up card");
  await release(page);
  const [printed] = await (await page.waitForFunction(() => window.printed.length && window.printed)).jsonValue();
  assert.match(printed, /431\.5/);
  assert.equal(printed.includes(before), false, before);
  assert.equal(await page.evaluate(() => window.printed.length), 1);
  await fine(page);
});

test("a worker that is killed is replaced, and what it was asked is asked again", async () => {
  const page = await visit();
  await page.clock.install();
  await page.goto(at.address);
  await ready(page);
  await steps(page);
  await slide(page).waitFor();
  const put = await page.evaluate(() => {
    window.workers.forEach((worker) => worker.terminate());
    return window.put;
  });
  await menu(page, "inch");
  await page.waitForFunction((before) => window.put > before, put);
  await page.locator(".settings.behind").waitFor({ state: "attached" });
  assert.equal(await page.evaluate(() => window.workers.length), 1);
  await page.clock.fastForward(61_000);
  await slide(page).filter({ hasText: "in" }).waitFor();
  assert.equal(await page.evaluate(() => window.workers.length), 2);
  assert.equal(await page.getByRole("alert").filter({ hasText: "Not worked out" }).count(), 0);
  await fine(page);
});

/** A page whose worker gets no wasm as long as `lost(how often it was asked for)`. */
async function without(lost) {
  const page = await visit();
  let asked = 0;
  await page.context().route(/\/answers\.\w+\.wasm$/, (route) => (lost(++asked) ? route.fulfill({ status: 404 }) : route.continue()));
  await page.goto(at.address);
  await ready(page);
  return page;
}

const heard = (page) => page.wrongs.splice(0, page.wrongs.length, ...page.wrongs.filter((wrong) => !/Failed to load resource/.test(wrong)));

test("a worker that breaks down once is not missed", async () => {
  const page = await without((count) => count === 1);
  await steps(page);
  await slide(page).waitFor();
  assert.equal(await page.evaluate(() => window.workers.length), 2);
  heard(page);
  await fine(page);
});

test("a worker that breaks down again is told of, and can be tried again", async () => {
  let broken = true;
  const page = await without(() => broken);
  await steps(page);
  await page.getByRole("alert").filter({ hasText: "Not worked out" }).filter({ hasText: "the order of work" }).waitFor();
  assert.equal(await page.locator(".step-item").count(), 0);
  broken = false;
  await press(page, "Try again");
  await slide(page).waitFor();
  await page.getByText("Not worked out").waitFor({ state: "detached" });
  heard(page);
  await fine(page);
});
