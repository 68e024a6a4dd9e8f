// Runs one file of tests, or says why it cannot. Exit 77 is ctest's "skipped".
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const [name, curbstop, project, samples] = process.argv.slice(2);

function skip(why) {
  console.log(`skipped: ${why}`);
  process.exit(77);
}
for (const needed of ["playwright-core", "axe-core", "ajv"]) {
  if (!existsSync(join(here, "..", "node_modules", needed))) {
    skip(`the npm package ${needed} is not installed; run \`npm ci\` in tests/ first`);
  }
}
const places = (process.env.PATH ?? "").split(":").map((folder) => join(folder, "chromium"));
const chromium = process.env.CHROMIUM ?? places.find(existsSync);
if (!chromium) {
  skip("there is no chromium; .ci/setup installs it where the distribution has one");
}
const done = spawnSync(process.execPath, ["--test", join(here, `${name}.test.mjs`)], {
  stdio: "inherit",
  env: { ...process.env, CURBSTOP: curbstop, PROJECT: project, SAMPLES: samples, CHROMIUM: chromium },
});
process.exit(done.status ?? 1);
