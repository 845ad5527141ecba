// The wasm package in Node: a job in, a plan out.
import { readFileSync } from "node:fs";
import { test } from "node:test";
import assert from "node:assert/strict";

const packed = new URL("../../target/package/", import.meta.url);
const { check, initSync, plan, sideView } = await import(new URL("staywright.js", packed));
initSync({ module: readFileSync(new URL("staywright_bg.wasm", packed)) });

test("a job gives its plan", () => {
  const answer = JSON.parse(plan(JSON.stringify({ format: 1, frame: { chainstay_length_mm: 415 } })));
  // With no rise the slide of the chainstays is the chainstay length itself.
  assert.ok(Math.abs(answer.pairs.chainstays.slide_mm - 415) < 1e-9);
  assert.equal(answer.pairs.chainstays.right.front.outer.length, 360);
});

test("a faulty job gives all its faults", () => {
  const { errors } = JSON.parse(plan('{"format":1,"frame":{"chainstay_length_mm":9,"bb_drop_mm":"x"}}'));
  assert.deepEqual(errors.map(({ field }) => field).sort(), ["frame.bb_drop_mm", "frame.chainstay_length_mm"]);
});

test("any text gives an answer", () => {
  for (const text of ["", "{", "null", "[]", "\u0000", "9".repeat(5000)]) assert.ok(JSON.parse(plan(text)).errors.length > 0);
});

test("what is no text gets the answer of a faulty text", () => {
  for (const odd of [undefined, null, 5, {}, [], Symbol("a"), 5n, new String("x"), () => 1]) {
    for (const ask of [plan, check]) {
      const [fault] = JSON.parse(ask(odd)).errors;
      assert.deepEqual(Object.keys(fault), ["field", "value", "message"]);
    }
    assert.equal(sideView(odd, 100, 100), "");
  }
  assert.ok(JSON.parse(plan('{"format":1}')).pairs, "it works on");
});

test("1.0 is the format 1", () => {
  assert.equal(plan('{"format":1.0}'), plan('{"format":1}'));
});

test("the types say what goes in and what comes out", () => {
  const types = readFileSync(new URL("staywright.d.ts", packed), "utf8");
  assert.match(types, /export function plan\(job: string\): string;/);
  assert.match(types, /export interface Plan /);
});
