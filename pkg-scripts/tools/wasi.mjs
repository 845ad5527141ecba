// Runs a command that was built for WebAssembly: `node wasi.mjs FILE`.
import { readFileSync } from "node:fs";
import { WASI } from "node:wasi";

const wasi = new WASI({ version: "preview1" });
const { instance } = await WebAssembly.instantiate(readFileSync(process.argv[2]), wasi.getImportObject());
wasi.start(instance);
