// Serves dist/ on this machine: node serve.mjs [port]. Also used by the browser tests.
import http from "node:http";
import { readFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
  ".svg": "image/svg+xml",
  ".png": "image/png",
};

export const DIST = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../../dist");

/** Where a request's file lies below `root`, or null when it points outside. */
function place(root, address) {
  const asked = decodeURIComponent(new URL(address, "http://here").pathname);
  const file = path.join(root, asked.endsWith("/") ? asked + "index.html" : asked);
  return file.startsWith(root + path.sep) ? file : null;
}

export async function serve(port = 0, root = DIST) {
  const server = http.createServer(async (request, response) => {
    try {
      const file = place(root, request.url);
      const body = file && (await readFile(file));
      if (!body) throw new Error("outside");
      response.writeHead(200, { "content-type": TYPES[path.extname(file)] ?? "application/octet-stream", "cache-control": "no-cache" });
      response.end(body);
    } catch {
      response.writeHead(404, { "content-type": "text/plain" }).end("not here");
    }
  });
  await new Promise((done, fail) => server.once("error", fail).listen(port, "127.0.0.1", done));
  return { server, address: `http://localhost:${server.address().port}/` };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { address } = await serve(Number(process.argv[2] ?? 8080));
  console.log(`Staywright is at ${address}`);
}
