// From the built package, the shell and the styles to dist/: every file under the hash of its content, one service worker
// that knows the whole set, and the single file that runs from disk.
import { createHash } from "node:crypto";
import { mkdir, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { gzipSync } from "node:zlib";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { build as bundle, transform } from "esbuild";
import { split } from "./split.mjs";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
const SHELL = path.join(ROOT, "src/page/shell");
const DIST = path.join(ROOT, "dist");

const text = (file) => readFile(path.join(ROOT, file), "utf8");
const hash = (content) => createHash("sha256").update(content).digest("hex").slice(0, 12);
const csp = (content) => `'sha256-${createHash("sha256").update(content).digest("base64")}'`;

/** Puts every `from` of `pairs` in place; a text without it is a fault of the build. */
function put(content, pairs) {
  for (const [from, to] of pairs) {
    if (!content.includes(from)) throw new Error(`the build looks for ${from} and does not find it`);
    content = content.replaceAll(from, () => to);
  }
  return content;
}

const PAGE = path.join(ROOT, "target/page/staywright.js");
const PACKAGE = path.join(ROOT, "target/package/staywright.js");

/** Lets the loader see what the page's wasm imports, and add to it: what joins its two parts. */
const joint = {
  name: "joint",
  setup: ({ onLoad }) =>
    onLoad({ filter: /target\/page\/staywright\.js$/ }, async ({ path }) => ({
      contents: put(await readFile(path, "utf8"), [
        ["const imports = __wbg_get_imports();", "const imports = { ...__wbg_get_imports(), ...more };"],
        ["function __wbg_get_imports()", "export const more = {};\nexport function __wbg_get_imports()"],
      ]),
    })),
};

async function styles() {
  const names = (await readdir(path.join(ROOT, "style"))).filter((name) => name.endsWith(".css")).sort();
  const all = (await Promise.all(names.map((name) => text(`style/${name}`)))).join("\n");
  return (await transform(all, { loader: "css", minify: true })).code;
}

/** A script of the shell as one short text, with the page's own module in it and the words of `define` in place. */
async function script(name, format, define) {
  const quoted = Object.fromEntries(Object.entries(define).map(([word, value]) => [word, JSON.stringify(value)]));
  const { outputFiles } = await bundle({
    entryPoints: [path.join(SHELL, name)],
    alias: { staywright: PAGE, "staywright-package": PACKAGE },
    plugins: [joint],
    define: { "import.meta.url": "location.href", ...quoted },
    bundle: true,
    format,
    target: "es2022",
    minify: true,
    legalComments: "none",
    write: false,
  });
  return outputFiles[0].text;
}

/** The shell with what it shows first: the starting job's drawing, as wide as the page draws it on a phone and on a desk. */
async function firstSight(css, known) {
  const { initSync, sideView } = await import(PACKAGE);
  initSync({ module: await readFile(path.join(ROOT, "target/package/staywright_bg.wasm")) });
  const drawn = (width, high) => sideView('{"format":1}', width, high);
  const shell = await text("index.html");
  return put(shell, [["__CSS__", css], ["__KNOWN__", known], ["__NARROW__", drawn(358, 506)], ["__WIDE__", drawn(864, 540)]]);
}

const written = [];
async function write(name, content) {
  await writeFile(path.join(DIST, name), content);
  written.push(name);
  return name;
}

function hashed(name, content) {
  const dot = name.lastIndexOf(".");
  return write(`${name.slice(0, dot)}.${hash(content)}${name.slice(dot)}`, content);
}

async function set(css, known, shell, { first, rest }, beside) {
  const wasmName = await hashed("staywright.wasm", first);
  const restName = await hashed("rest.wasm", rest);
  const besideName = await hashed("beside.js", beside.script);
  const besideWasm = await hashed("beside.wasm", beside.wasm);
  const scripts = await Promise.all(["loader.js", "ask.js", "rest.js"].map((name) => text(`src/page/shell/${name}`)));
  const build = hash([wasmName, restName, besideName, besideWasm, css, shell, await readFile(PAGE), ...scripts].join());
  const names = { WASM: `./${wasmName}`, REST: `./${restName}`, BESIDE: `./${besideName}`, BESIDE_WASM: `./${besideWasm}` };
  const loaderName = await hashed("staywright.js", await script("loader.js", "esm", { BUILD: build, ...names }));
  for (const name of ["icon.svg", "icon-192.png", "icon-512.png", "app.webmanifest"]) {
    await write(name, await readFile(path.join(SHELL, name)));
  }
  await write("index.html", put(shell, [["__KNOWN_HASH__", csp(known)], ["__STYLE__", csp(css)], ["staywright.wasm", wasmName], ["src/page/shell/loader.js", loaderName], ["__BUILD__", build]]));
  const files = ["./", ...written.filter((name) => name !== "index.html")];
  await write("worker.js", await script("worker.js", "iife", { BUILD: build, FILES: files }));
  return build;
}

const packed = (content) => gzipSync(content, { level: 9 }).toString("base64");

async function singleFile(css, known, first, wasm, beside, build) {
  const start = await script("single.js", "iife", {});
  const policy = `default-src 'none'; script-src ${csp(start)} ${csp(known)} 'wasm-unsafe-eval'; style-src ${csp(css)}; img-src data:; worker-src blob:; base-uri 'none'; form-action 'none'`;
  const shell = put(first, [["__BUILD__", build]]);
  const cut = (content, from, to) => content.replace(new RegExp(`\\s*<!-- ${from} -->[\\s\\S]*?<!-- /${from} -->`), () => to);
  let page = cut(shell, "set-policy", `\n  <meta http-equiv="Content-Security-Policy" content="${policy}">`);
  page = cut(page, "set-links", "");
  const held = Object.entries({ wasm, beside: beside.script, "beside-wasm": beside.wasm });
  const texts = held.map(([id, content]) => `\n  <script type="text/plain" id="${id}">${packed(content)}</script>`);
  page = cut(page, "set-script", `${texts.join("")}\n  <script>${start}</script>`);
  await write("staywright.html", page);
}

await rm(DIST, { recursive: true, force: true });
await mkdir(DIST, { recursive: true });
const css = await styles();
const wasm = split(path.join(ROOT, "target/page/staywright_bg.wasm"), await text("src/page/later.txt"));
const beside = {
  script: await script("beside.js", "iife", {}),
  wasm: await readFile(path.join(ROOT, "target/package/staywright_bg.wasm")),
};
const known = (await transform(await text("src/page/shell/known.js"), { minify: true })).code;
const first = await firstSight(css, known);
const build = await set(css, known, first, wasm, beside);
await singleFile(css, known, first, wasm.whole, beside, build);
console.log(`dist/ holds build ${build}: ${written.length} files`);
