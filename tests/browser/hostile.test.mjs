// Whatever is entered: no number that is none, no error, no word lost.
import { test } from "node:test";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { PHONE, PLACES, WIDE, another, bench, close, drawn, field, figure, fine, go, job, mill, open, part, press, said, stays, type } from "./harness.mjs";

const at = bench();

const number = (text) => Number(text.replace("−", "-"));

/** Every figure of the job with its range, as the manual lists them for a reader. */
const FIGURES = readFileSync(new URL("../../src/manual/job.md", import.meta.url), "utf8")
  .split("\n")
  .map((line) => line.match(/^\| `([\w.[\]]+)` \| [^|]+ \| (?:mm|°) \| [^|]+ \| ([-−]?[\d.]+) to ([-−]?[\d.]+) \|$/))
  .filter(Boolean)
  .map(([, path, min, max]) => ({ path, min: number(min), max: number(max) }))
  // What a plain job does not have has tests of its own.
  .filter(({ path }) => !/^surroundings|^(?!SIDE)[A-Z]|bends|butts|ovals|roll_deg/.test(path));

/** Words and attributes of the page that hold a number that is none. */
const nonsense = (page) =>
  page.evaluate(() => {
    const bad = /NaN|Infinity|\binf\b|undefined|null|-?\d{13,}/;
    const main = document.querySelector("main");
    const marks = [...main.querySelectorAll("svg, svg *")].flatMap((one) => [...one.attributes].map(({ name, value }) => `${one.tagName} ${name}=${value}`));
    // What was typed stands in its message on purpose.
    const clone = main.cloneNode(true);
    clone.querySelectorAll(".fault, .verdict, svg").forEach((one) => one.remove());
    return [...clone.textContent.split("\n"), ...marks].filter((text) => bad.test(text)).map((text) => text.slice(0, 100)).slice(0, 3);
  });

async function everywhere(page, why) {
  for (const place of PLACES) {
    await go(page, place);
    assert.deepEqual(await nonsense(page), [], `${place}: ${why}`);
  }
  await go(page, "Cut");
  for (const setting of await page.locator(".setting-open").all()) await setting.click();
  assert.deepEqual(await nonsense(page), [], `the last cut: ${why}`);
}

/** Opens a job as a file; whether it was taken. */
async function take(page, made) {
  await job(page);
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.getByText("Open job file").click()]);
  await chooser.setFiles({ name: "job.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(made)) });
  const notice = page.locator(".notice");
  await notice.waitFor();
  const taken = /is opened/.test(await notice.innerText());
  await notice.getByRole("button", { name: "Close" }).click();
  return taken;
}

/** A job whose figures are chosen by `pick`, its ends by `kind`. */
function chosen(pick, kind) {
  const made = { format: 1 };
  const put = (path, value) => {
    const keys = path.split(".");
    const last = keys.pop();
    let at = made;
    for (const key of keys) at = at[key] ??= {};
    at[last] = value;
  };
  const ends = { front: ["cope", "square"], rear: ["boss", "slot", "square"] };
  const KEYS = { cope: ["cutter_mm"], boss: ["boss_mm", "cutter_mm"], slot: ["plate_mm", "depth_mm", "overhang_mm"], square: [] };
  const kinds = {};
  for (const pair of ["chainstays", "seatstays"])
    for (const end of ["front", "rear"]) {
      const one = (kinds[`${pair}.${end}`] = kind(ends[end]));
      put(`${pair}.right.${end}.end`, { kind: one, ...(one === "cope" && { onto: pair === "chainstays" ? "shell" : "seat_tube" }) });
    }
  for (const figure of FIGURES.filter(({ path }) => !path.includes("[]")))
    for (const path of figure.path.startsWith("SIDE.") ? ["chainstays", "seatstays"].map((pair) => figure.path.replace("SIDE", `${pair}.right`)) : [figure.path]) {
      const [, pair, end, key] = path.match(/^(\w+)\.right\.(\w+)\.end\.(\w+)$/) ?? [];
      if (key && !KEYS[kinds[`${pair}.${end}`]].includes(key)) continue;
      put(path, pick(figure));
    }
  return made;
}

/** Chance that is the same every time (Park and Miller's minimal standard generator). */
function chance(seed) {
  return () => (seed = (seed * 48271) % 2147483647) / 2147483647;
}

test("every figure of the manual is known", () => assert.ok(FIGURES.length >= 35, `${FIGURES.length}`));

test("jobs at the ends of every range, and by chance between them", async () => {
  const page = await open(at.browser, at.address, WIDE);
  const next = chance(417);
  let taken = 0;
  for (let count = 0; count < 10; count++) {
    const extreme = count % 2 === 0;
    const pick = ({ path, min, max }) => {
      if (/taper_start|slide_min|axle_height_min/.test(path)) return min;
      if (/taper_end|slide_max|axle_height_max/.test(path)) return max;
      return extreme ? (next() < 0.5 ? min : max) : Number((min + (max - min) * next()).toFixed(2));
    };
    const made = chosen(pick, (kinds) => kinds[Math.floor(next() * kinds.length)]);
    if (await take(page, made)) {
      taken += 1;
      await everywhere(page, JSON.stringify(made));
    }
  }
  assert.ok(taken >= 3, `${taken} jobs were taken`);
  await fine(page);
});

test("each figure of the frame and wheel at its least and most, by key", async () => {
  const page = await open(at.browser, at.address, PHONE);
  for (const name of ["Frame", "Wheel and hub", "Shell and seat tube"]) {
    await part(page, name);
    for (const path of await page.locator(".part-figures .figure-row").evaluateAll((rows) => rows.map((row) => row.dataset.path))) {
      await page.locator(`[data-path="${path}"]`).click();
      const box = page.locator("#figure-field");
      const before = await box.inputValue();
      for (const text of ["-9999", "9999"]) {
        await box.fill(text);
        const [, min, max] = (await page.locator("#figure-fault").innerText()).replaceAll("−", "-").match(/outside (-?[\d.]+) to (-?[\d.]+)/);
        for (const limit of [min, max]) {
          await box.fill(limit);
          assert.equal(await page.locator("figure.drawing").count(), 1);
          assert.deepEqual(await nonsense(page), [], `${path} ${limit}`);
        }
      }
      await box.fill(before);
      await close(page);
    }
  }
  await drawn(page, "chainstay length 430.00 mm");
  await fine(page);
});

const RUBBISH = ["", " ", "-", ".", ",", "1,2,3", "1.2.3", "--5", "1e5", "1e999", "-1e-999", "0x1f", "١٢٣", "５", "½", "1/0", "0/0", "5 1/0 in", "1/2/3", "NaN", "Infinity", "∞", "mm", "5 parsecs", "\u202e5", "😀", "<b>5</b>", "5; DROP", "9".repeat(10_000), "\u0000", "4３0"];

test("rubbish in every field of every place: named at the field, nothing drawn from it, all mended again", async () => {
  const page = await open(at.browser, at.address, WIDE);
  const start = await said(page);
  const fillAll = async (boxes) => {
    for (const [index, box] of boxes.entries()) {
      const before = await box.inputValue();
      for (let turn = 0; turn < 3; turn++) await box.fill(RUBBISH[(index * 3 + turn) % RUBBISH.length]);
      assert.deepEqual(await nonsense(page), [], await box.getAttribute("id"));
      await box.fill(before);
      await box.blur();
    }
  };
  for (const name of ["Frame", "Wheel and hub", "Shell and seat tube", "Chainstays", "Seat stays"]) {
    await part(page, name);
    for (const row of await page.locator(".part-figures .figure-row").all()) {
      await row.click();
      await fillAll([page.locator("#figure-field")]);
      await close(page);
    }
  }
  await go(page, "Check");
  await fillAll(await page.locator("main").getByRole("textbox").all());
  await go(page, "Design");
  assert.equal(await said(page), start);
  await fine(page);
});

test("every piece of rubbish in one field", async () => {
  const page = await open(at.browser, at.address, PHONE);
  const start = await said(page);
  const box = await figure(page, "Chainstay length");
  for (const text of RUBBISH) {
    await box.fill(text);
    assert.equal(await box.getAttribute("aria-invalid"), "true", text.slice(0, 20));
    assert.equal(await said(page), start, text.slice(0, 20));
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 390, text.slice(0, 20));
  }
  await fine(page);
});

test("keys alone reach everything, each with its mark, and lead out again", async () => {
  const page = await open(at.browser, at.address, WIDE);
  await stays(page);
  const seen = new Set();
  for (let count = 0; count < 120; count++) {
    await page.keyboard.press("Tab");
    const here = await page.evaluate(() => {
      const one = document.activeElement;
      if (one === document.body) return null;
      one.dataset.seen ??= `${document.querySelectorAll("[data-seen]").length}`;
      const style = getComputedStyle(one.matches("input[type=radio]") ? one.nextElementSibling : one);
      const ring = style.outlineStyle !== "none" || [...one.querySelectorAll(".reach")].some((reach) => getComputedStyle(reach).strokeWidth !== "1px");
      return { id: one.dataset.seen, ring, html: one.outerHTML.slice(0, 80) };
    });
    // After the last one the browser's own buttons have their turn.
    if (!here) continue;
    if (seen.has(here.id)) break;
    assert.ok(here.ring, `no mark on ${here.html}`);
    seen.add(here.id);
  }
  const missed = await page.locator("button:enabled, input:not([type=radio]), select, [role=slider], summary").evaluateAll((all) => all.filter((one) => one.checkVisibility() && !one.dataset.seen).map((one) => one.outerHTML.slice(0, 80)));
  assert.deepEqual(missed, []);
  await fine(page);
});

test("the whole way by keys: a starting job, a place, a step ticked at the mill", async () => {
  const page = await open(at.browser, at.address, WIDE);
  const by = async (locator) => {
    await locator.focus();
    await page.keyboard.press("Enter");
  };
  await by(page.locator(".bar-job"));
  await by(page.locator("summary", { hasText: "Start another job" }));
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await drawn(page, "415.00 mm");
  await by(page.getByRole("navigation").getByRole("button", { name: "Cut" }));
  await by(page.getByRole("button", { name: "Start at the mill" }));
  await page.getByRole("button", { name: /^Done/ }).focus();
  await page.keyboard.press("Space");
  await page.getByText("Step 2 of").waitFor();
  await fine(page);
});

test("drawn near with two fingers, a handle still follows the finger", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await stays(page);
  const devtools = await page.context().newCDPSession(page);
  const handle = page.getByRole("slider", { name: "right rear half spacing" });
  const box = await handle.locator(".knob").boundingBox();
  const knob = () => handle.locator(".knob").evaluate((one) => one.getBoundingClientRect().y);
  const before = await knob();
  await devtools.send("Emulation.setPageScaleFactor", { pageScaleFactor: 2 });
  // These touches are given in the page's own px, not in the screen's.
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const send = (type, points) => devtools.send("Input.dispatchTouchEvent", { type, touchPoints: points.map(([x, y]) => ({ x, y })) });
  await send("touchStart", [[x, y]]);
  await page.locator(".handle.held").waitFor();
  for (const up of [10, 20, 30, 40]) {
    await send("touchMove", [[x, y - up]]);
    await page.waitForTimeout(40);
  }
  await send("touchEnd", []);
  const up = before - (await knob());
  assert.ok(Math.abs(up - 40) < 3, `40 px of a finger moved it by ${up}`);
  await fine(page);
});

test("three hundred changes in one go: the last one stands, and undo takes it back", async () => {
  const page = await open(at.browser, at.address, PHONE);
  await stays(page);
  const mirror = page.getByRole("switch", { name: "Left mirrors right" });
  await mirror.evaluate((one) => { for (let count = 0; count < 301; count++) one.click(); });
  assert.equal(await mirror.isChecked(), false);
  await page.waitForTimeout(600);
  await press(page, "Undo");
  await page.waitForFunction(() => document.querySelector("[role=switch]").checked);
  await fine(page);
});
