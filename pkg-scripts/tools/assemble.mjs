// From the built package, the shell and the styles to dist/: every file under the hash of its content, one service worker
// that knows the whole set, and the single file that runs from disk.
import { createHash } from "node:crypto";
import { mkdir, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { gzipSync } from "node:zlib";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { build as bundle, transform } from "esbuild";

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

async function styles() {
  const names = (await readdir(path.join(ROOT, "style"))).filter((name) => name.endsWith(".css")).sort();
  const all = (await Promise.all(names.map((name) => text(`style/${name}`)))).join("\n");
  return (await transform(all, { loader: "css", minify: true })).code;
}

/** A script as one short text, with the page's own module in it and the words of `define` in place. */
async function script(name, format, define = {}) {
  const quoted = Object.fromEntries(Object.entries(define).map(([word, value]) => [word, JSON.stringify(value)]));
  const { outputFiles } = await bundle({
    entryPoints: [path.join(ROOT, name)],
    alias: { staywright: PAGE, "staywright-package": PACKAGE },
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

async function set(css, shell, wasm, worker) {
  const wasmName = await hashed("staywright.wasm", wasm);
  const workerName = await hashed("answers.js", worker.script);
  const workerWasm = await hashed("answers.wasm", worker.wasm);
  const names = { WASM: `./${wasmName}`, WORKER: `./${workerName}`, WORKER_WASM: `./${workerWasm}` };
  const nameless = await script("src/page/shell/loader.js", "esm", { BUILD: "", ...names });
  const build = hash([css, shell, nameless].join());
  const loaderName = await hashed("staywright.js", await script("src/page/shell/loader.js", "esm", { BUILD: build, ...names }));
  for (const name of ["icon.svg", "icon-192.png", "icon-512.png", "app.webmanifest"]) {
    await write(name, await readFile(path.join(SHELL, name)));
  }
  await write("index.html", put(shell, [["__STYLE__", csp(css)], ["staywright.wasm", wasmName], ["src/page/shell/loader.js", loaderName], ["__BUILD__", build]]));
  const files = ["./", ...written.filter((name) => name !== "index.html")];
  // See loader.js for its name.
  await write("worker.js", await script("src/page/shell/service_worker.js", "iife", { BUILD: build, FILES: files }));
  return build;
}

const packed = (content) => gzipSync(content, { level: 9 }).toString("base64");

async function singleFile(css, template, wasm, worker, build) {
  const start = await script("src/page/shell/single.js", "iife");
  const policy = `default-src 'none'; script-src ${csp(start)} 'wasm-unsafe-eval'; style-src ${csp(css)}; img-src data:; worker-src blob:; base-uri 'none'; form-action 'none'`;
  const shell = put(template, [["__BUILD__", build]]);
  const cut = (content, from, to) => content.replace(new RegExp(`\\s*<!-- ${from} -->[\\s\\S]*?<!-- /${from} -->`), () => to);
  let page = cut(shell, "set-policy", `\n  <meta http-equiv="Content-Security-Policy" content="${policy}">`);
  page = cut(page, "set-links", "");
  const held = Object.entries({ wasm, worker: worker.script, "worker-wasm": worker.wasm });
  const texts = held.map(([id, content]) => `\n  <script type="text/plain" id="${id}">${packed(content)}</script>`);
  page = cut(page, "set-script", `${texts.join("")}\n  <script>${start}</script>`);
  await write("staywright.html", page);
}

await rm(DIST, { recursive: true, force: true });
await mkdir(DIST, { recursive: true });
const css = await styles();
const wasm = await readFile(path.join(ROOT, "target/page/staywright_bg.wasm"));
const worker = {
  script: await script("src/worker/worker.js", "iife"),
  wasm: await readFile(path.join(ROOT, "target/package/staywright_bg.wasm")),
};
const shell = put(await text("index.html"), [["__CSS__", css]]);
const build = await set(css, shell, wasm, worker);
await singleFile(css, shell, wasm, worker, build);
console.log(`dist/ holds build ${build}: ${written.length} files`);
