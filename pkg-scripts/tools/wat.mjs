// A wasm module as text, part by part: what of binaryen's text form the splitting in two has to know.

/** How a thing is named: plainly, or in quotes. */
export const NAME = String.raw`\$(?:"(?:[^"\\]|\\.)*"|[^\s()]+)`;

export const all = (text, pattern) => [...text.matchAll(new RegExp(pattern, "g"))].map((found) => found[1]);
const one = (text, pattern) => text.match(new RegExp(pattern));

/** The parts of a module in order. A part begins on a line with one space before its bracket. */
export function parts(wat) {
  const forms = wat.split(/\n(?= [(;]|\)$)/).filter((form) => form.startsWith(" ("));
  return forms.map((text) => {
    const [, kind, name] = one(text, String.raw`^ \((\w+)(?: (${NAME}))?`);
    return { kind, name, text };
  });
}

/** What an import brings in. */
export function brought({ text }) {
  const [, kind, name] = one(text, String.raw`\((func|table|memory|global) (${NAME})`);
  return { kind, name, text };
}

/** What an export gives of functions. */
export const given = ({ text }) => all(text, String.raw`\(func (${NAME})\)`);

/** A function with its signature and whom it calls. */
export function described({ name, text }) {
  const [head] = text.split("\n", 1);
  const params = all(head, String.raw`\(param \$\S+ (\w+)\)`);
  const results = one(head, String.raw`\(result [^)]*\)`)?.[0] ?? "";
  return { name, text, params, results, calls: new Set(all(text, String.raw`\((?:call|ref\.func) (${NAME})`)) };
}

/** The one element segment: its table, the first slot, and the functions from there on. */
export function filled({ text }) {
  const [, table, start, names] = one(text, String.raw`\(table (${NAME})\) \(i32\.const (\d+)\) func (.*)\)$`);
  return { table, start: Number(start), names: all(names, `(${NAME})`) };
}

/** The type of a global, table or memory, as an import has to say it. */
export function typed({ kind, name, text }) {
  const after = text.slice(text.indexOf(name) + name.length + 1);
  return kind === "global" ? one(after, String.raw`^(\(mut \w+\)|\w+)`)[1] : after.slice(0, -1);
}
