// Splits the page's wasm in two: what a first visit needs, and the rest, which the page fetches afterwards.
//
// Both parts share memory and tables. In the first, a function of the rest is a stub of its own signature: it makes sure that
// the rest is there (`wait`) and goes on through the table, where the rest has by then put the function itself.
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { all, brought, described, filled, given, NAME, parts, typed } from "./wat.mjs";

const FEATURES = ["mutable-globals", "nontrapping-float-to-int", "bulk-memory", "sign-ext", "reference-types", "multivalue"];
/** A function with less text than this is hardly longer than its stub. */
const SHORT = 400;

function tool(name, ...rest) {
  const features = FEATURES.map((feature) => `--enable-${feature}`);
  execFileSync(name, [...features, ...rest], { stdio: ["ignore", "inherit", "inherit"] });
}

/** Functions in the words of the source: without the hashes of their crates. */
const plain = (name) => name.replace(/\[[0-9a-f]{16}\]/g, "");

/** The functions that `words` name, without those that a word with a `!` names. A word that names none is out of date. */
function named(functions, words) {
  const names = functions.map(({ name }) => plain(name));
  const has = (word) => (name) => name.includes(word.replace("!", ""));
  const idle = words.filter((word) => !names.some(has(word)));
  if (idle.length) throw new Error(`the page has nothing named ${idle.join(", ")}`);
  const [kept, gone] = [true, false].map((kept) => words.filter((word) => word.startsWith("!") === kept));
  const away = (name) => gone.some((word) => has(word)(name)) && !kept.some((word) => has(word)(name));
  const meant = functions.filter(({ text }, i) => text.length > SHORT && away(names[i]));
  return new Set(meant.map(({ name }) => name));
}

/** Adds to `away` what nobody else calls. `open` may be called by anybody. */
function followed(functions, away, open) {
  const callers = new Map(functions.map(({ name }) => [name, []]));
  for (const { name, calls } of functions) for (const called of calls) callers.get(called)?.push(name);
  const theirs = (name) => !away.has(name) && !open.has(name) && callers.get(name).length > 0 && callers.get(name).every((caller) => away.has(caller));
  for (let more; (more = functions.filter(({ name }) => theirs(name))).length; ) more.forEach(({ name }) => away.add(name));
  return away;
}

/** What both parts are made of. */
function planned(forms, words) {
  const of = (kind) => forms.filter((form) => form.kind === kind);
  const functions = of("func").map(described);
  const { table, start, names } = filled(of("elem")[0]);
  const exported = new Set(of("export").flatMap(given));
  const away = followed(functions, named(functions, words), new Set([...exported, ...names]));
  const [here, there] = [false, true].map((far) => functions.filter(({ name }) => away.has(name) === far));
  const asked = new Set([...exported, ...here.flatMap(({ calls }) => [...calls])]);
  const slots = [...names, ...[...away].filter((name) => asked.has(name) && !names.includes(name))];
  const room = `${start + slots.length} ${start + slots.length} funcref`;
  const fixed = forms.map((form) => (form.kind === "table" && form.name === table ? { ...form, text: ` (table ${table} ${room})` } : form));
  return { forms: fixed.filter(({ kind }) => kind !== "elem"), here, there, table, start, slots };
}

/** What the first part lends to the rest: the functions, globals, tables and memory that it uses. */
function lent({ forms, here, there }) {
  const called = new Set(there.flatMap(({ calls }) => [...calls]));
  const globals = new Set(there.flatMap(({ text }) => all(text, String.raw`\(global\.[gs]et (${NAME})`)));
  const things = forms.filter(({ kind, name }) => kind === "table" || kind === "memory" || (kind === "global" && globals.has(name)));
  const functions = here.filter(({ name }) => called.has(name));
  const type = ({ params, results }) => `${params.map((param) => `(param ${param})`).join(" ")} ${results}`;
  const loans = [...functions.map((one) => ["func", one.name, type(one)]), ...things.map((one) => [one.kind, one.name, typed(one)])];
  return loans.map(([kind, name, type], i) => ({ kind, name, type, key: i.toString(36) }));
}

function stub({ name, params, results }, table, slot) {
  const taken = params.map((type, i) => `(param $${i} ${type})`).join(" ");
  const passed = params.map((_, i) => `(local.get $${i})`).join(" ");
  const types = params.map((type) => `(param ${type})`).join(" ");
  return ` (func ${name} ${taken} ${results}
  (if (i32.eqz (global.get $whole)) (then (call $wait)))
  (call_indirect ${table} ${types} ${results} ${passed} (i32.const ${slot})))`;
}

function firstPart(plan) {
  const { forms, there, table, start, slots } = plan;
  const slot = new Map(slots.map((name, i) => [name, start + i]));
  const away = new Map(there.map((one) => [one.name, one]));
  const kept = forms.filter(({ name }) => !away.has(name) || slot.has(name));
  const texts = kept.map(({ name, text }) => (away.has(name) ? stub(away.get(name), table, slot.get(name)) : text));
  const types = texts.filter((text) => text.startsWith(" (type"));
  return [
    ...types,
    ' (import "rest" "wait" (func $wait))',
    ...texts.slice(types.length),
    ' (global $whole (mut i32) (i32.const 0))\n (export "whole" (global $whole))',
    ` (elem (table ${table}) (i32.const ${start}) func ${slots.join(" ")})`,
    ...lent(plan).map(({ kind, name, key }) => ` (export "${key}" (${kind} ${name}))`),
  ];
}

function secondPart(plan) {
  const { forms, there, table, start, slots } = plan;
  const called = new Set(there.flatMap(({ calls }) => [...calls]));
  const away = new Set(there.map(({ name }) => name));
  const imports = forms.filter(({ kind }) => kind === "import").map(brought);
  const own = slots.map((name, i) => [name, start + i]).filter(([name]) => away.has(name));
  return [
    ...forms.filter(({ kind }) => kind === "type").map(({ text }) => text),
    ...imports.filter(({ name }) => called.has(name)).map(({ text }) => text),
    ...lent(plan).map(({ kind, name, type, key }) => ` (import "first" "${key}" (${kind} ${name} ${type}))`),
    ...there.map(({ text }) => text),
    ...own.map(([name, slot]) => ` (elem (table ${table}) (i32.const ${slot}) func ${name})`),
  ];
}

function packed(file, ...rest) {
  tool("wasm-opt", "--strip-debug", "--strip-producers", ...rest, file, "-o", `${file}.packed`);
  return readFileSync(`${file}.packed`);
}

function assembled(texts, file) {
  writeFileSync(`${file}.wat`, `(module\n${texts.join("\n")}\n)`);
  tool("wasm-as", `${file}.wat`, "-o", file);
  return packed(file, "-Oz", "--low-memory-unused");
}

/** The module in the file `whole`, which has its names, as one and in two parts. The rest is what the lines of `list` name. */
export function split(whole, list) {
  tool("wasm-dis", whole, "-o", `${whole}.wat`);
  const words = list.split("\n").filter((line) => line && !line.startsWith("#"));
  const plan = planned(parts(readFileSync(`${whole}.wat`, "utf8")), words);
  return { whole: packed(whole), first: assembled(firstPart(plan), `${whole}.first`), rest: assembled(secondPart(plan), `${whole}.rest`) };
}
