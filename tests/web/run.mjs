// Runs the judges, or says why it cannot. Exit 77 is ctest's "skipped".
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
if (!existsSync(join(here, "..", "node_modules", "html-validate"))) {
  console.log("skipped: the npm packages are not installed; run `npm ci` in tests/ first");
  process.exit(77);
}
const [samples, curbstop, project] = process.argv.slice(2);
const done = spawnSync(process.execPath, ["--test", join(here, "judges.test.mjs"), join(here, "languages.test.mjs")], {
  stdio: "inherit",
  env: { ...process.env, SAMPLES: samples, CURBSTOP: curbstop, PROJECT: project },
});
process.exit(done.status ?? 1);
