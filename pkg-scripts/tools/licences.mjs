// Reads `cargo metadata` and stops at a licence that is not on the list.
const ALLOWED = ["MIT", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "ISC", "Zlib", "Unicode-3.0", "Unlicense", "0BSD", "CC0-1.0", "BSL-1.0", "MPL-2.0", "Apache-2.0 WITH LLVM-exception"];

/** Whether an SPDX expression of ORs and ANDs can be met from the list. */
function allowed(expression) {
  const plain = expression.replaceAll("/", " OR ").replaceAll(/[()]/g, "");
  return plain.split(" AND ").every((part) => part.split(" OR ").some((one) => ALLOWED.includes(one.trim())));
}

let text = "";
for await (const chunk of process.stdin) text += chunk;
const { packages } = JSON.parse(text);
const odd = packages.filter(({ license }) => !license || !allowed(license));
for (const { name, version, license } of odd) console.error(`${name} ${version}: ${license ?? "no licence stated"}`);
console.log(`${packages.length} packages, ${odd.length} with a licence that is not on the list`);
process.exit(odd.length ? 1 : 0);
