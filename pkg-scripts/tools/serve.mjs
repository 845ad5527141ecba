// Serves dist/: node serve.mjs [--network] [port]. On this machine alone unless --network is given. Also used by the browser tests.
import http from "node:http";
import os from "node:os";
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

/** Serves `root`; `host` is the address that is listened at. */
export async function serve(port = 0, root = DIST, host = "127.0.0.1") {
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
  await new Promise((done, fail) => server.once("error", fail).listen(port, host, done));
  return { server, address: `http://localhost:${server.address().port}/` };
}

/** The IPv4 addresses by which other machines of the network reach this one. */
function networkAddresses() {
  const all = Object.values(os.networkInterfaces()).flat();
  return all.filter((one) => one.family === "IPv4" && !one.internal).map((one) => one.address);
}

/** The port of the command line, or null where what stands there is none. */
function portOf(text = "8080") {
  const port = Number(text);
  return Number.isInteger(port) && port >= 0 && port < 65536 ? port : null;
}

async function main(words) {
  const network = words.includes("--network");
  const rest = words.filter((word) => word !== "--network");
  const port = portOf(rest[0]);
  if (port === null || rest.length > 1) {
    console.error("usage: ./pkg-scripts/serve [--network] [port]; a port is a whole number from 0 to 65535");
    process.exit(2);
  }
  const { server, address } = await serve(port, DIST, network ? "0.0.0.0" : "127.0.0.1").catch((error) => {
    console.error(error.code === "EADDRINUSE" ? `port ${port} is taken: name another, ./pkg-scripts/serve ${port + 1}` : error.message);
    process.exit(1);
  });
  console.log(`Staywright is at ${address}`);
  if (!network) return;
  const addresses = networkAddresses();
  if (!addresses.length) console.log("This machine is on no network.");
  for (const one of addresses) console.log(`For other devices on this network: http://${one}:${server.address().port}/`);
  console.log("Over plain http a browser neither installs the page nor keeps it for use without a network, and may withhold clipboard and sharing.");
  console.log("Anybody on this network can read the page while it is served. Ctrl+C ends it.");
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await main(process.argv.slice(2));
