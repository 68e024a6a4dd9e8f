// Runs the trials of printed sheets, or says why it cannot. Exit 77 is ctest's "skipped".
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const skip = (why) => {
  console.log(`skipped: ${why}`);
  process.exit(77);
};
const there = (program, flag) => spawnSync(program, [flag], { stdio: "ignore" }).error === undefined;

if (!existsSync(join(here, "..", "node_modules", "playwright-core"))) {
  skip("the npm packages are not installed; run `npm ci` in tests/ first");
}
for (const program of ["pdftotext", "pdfinfo"]) {
  if (!there(program, "-v")) skip(`${program} is not installed (package poppler-utils)`);
}
if (!there("chromium", "--version")) skip("chromium is not installed");

const [curbstop, project] = process.argv.slice(2);
const done = spawnSync(process.execPath, ["--test", join(here, "print.test.mjs")], {
  stdio: "inherit",
  env: { ...process.env, CURBSTOP: curbstop, PROJECT: project },
});
process.exit(done.status ?? 1);
