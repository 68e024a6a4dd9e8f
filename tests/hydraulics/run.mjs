// Runs the comparison, or says why it cannot. Exit 77 is ctest's "skipped".
//
//     node run.mjs CURBSTOP [--count 200] [--seed 1] [--keep FILE]
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

if (!existsSync(join(dirname(fileURLToPath(import.meta.url)), "..", "node_modules", "epanet-js"))) {
  console.log("skipped: the npm package epanet-js is not installed; run `npm ci` in tests/ first");
  process.exit(77);
}
await import("./compare.mjs");
