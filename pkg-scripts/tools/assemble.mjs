// From the built package, the shell and the styles to dist/: every file under the hash of its content, one service worker
// that knows the whole set, and the single file that runs from disk.
import { createHash } from "node:crypto";
import { mkdir, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { gzipSync } from "node:zlib";
import path from "node:path";
import { fileURLToPath } from "node:url";

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

async function styles() {
  const names = (await readdir(path.join(ROOT, "style"))).filter((name) => name.endsWith(".css")).sort();
  return (await Promise.all(names.map((name) => text(`style/${name}`)))).join("\n");
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

async function set(css) {
  const wasm = await readFile(path.join(ROOT, "target/page/staywright_bg.wasm"));
  const wasmName = await hashed("staywright.wasm", wasm);
  const glue = put(await text("target/page/staywright.js"), [["staywright_bg.wasm", wasmName]]);
  const glueName = await hashed("staywright.js", glue);
  const cssName = await hashed("style.css", css);
  const shell = await text("index.html");
  const loader = await text("src/page/shell/loader.js");
  const build = hash(wasmName + glueName + cssName + shell + loader);
  const loaderName = await hashed("loader.js", put(loader, [["./staywright.js", `./${glueName}`], ["./staywright.wasm", `./${wasmName}`], ["__BUILD__", build]]));
  for (const name of ["icon.svg", "icon-192.png", "icon-512.png", "app.webmanifest"]) {
    await write(name, await readFile(path.join(SHELL, name)));
  }
  await write("index.html", put(shell, [["style/all.css", cssName], ["staywright.js", glueName], ["staywright.wasm", wasmName], ["src/page/shell/loader.js", loaderName], ["__BUILD__", build]]));
  const files = ["./", ...written.filter((name) => name !== "index.html")];
  await write("worker.js", put(await text("src/page/shell/worker.js"), [["__BUILD__", build], ['["__FILES__"]', JSON.stringify(files)]]));
  return build;
}

async function singleFile(css, build) {
  const glue = await text("target/classic/staywright.js");
  const start = await text("src/page/shell/single.js");
  const wasm = gzipSync(await readFile(path.join(ROOT, "target/classic/staywright_bg.wasm")), { level: 9 }).toString("base64");
  const script = `${glue}\n${start}`;
  const policy = `default-src 'none'; script-src ${csp(script)} 'wasm-unsafe-eval'; style-src ${csp(css)}; img-src data:; base-uri 'none'; form-action 'none'`;
  const shell = put(await text("index.html"), [["__BUILD__", build]]);
  const cut = (content, from, to) => content.replace(new RegExp(`\\s*<!-- ${from} -->[\\s\\S]*?<!-- /${from} -->`), () => to);
  let page = cut(shell, "set-policy", `\n  <meta http-equiv="Content-Security-Policy" content="${policy}">`);
  page = cut(page, "set-links", `\n  <style>${css}</style>`);
  page = cut(page, "set-script", `\n  <script type="text/plain" id="wasm">${wasm}</script>\n  <script>${script}</script>`);
  await write("staywright.html", page);
}

await rm(DIST, { recursive: true, force: true });
await mkdir(DIST, { recursive: true });
const css = await styles();
const build = await set(css);
await singleFile(css, build);
console.log(`dist/ holds build ${build}: ${written.length} files`);
