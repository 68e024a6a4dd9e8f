// How long the sheet of a long procedure takes until it can be worked, and how large its file is:
//   node tests/bench/opens.mjs build/release/bin/curbstop
// Run by hand, as it times; needs chromium and `npm ci` in tests/. What was wanted: 500 steps in 1.5 s and 2 MB. Found in
// November 2026, Chromium 156, two processors that had five others' work to do: 500 steps and 20 options, with pictures, in
// 0.36 s (0.30 s of processor time), 1.54 MB; a tick is shown after 47 ms, a variant after 67 ms.
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, statSync, writeFileSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

import { chromium } from "playwright-core";

const here = dirname(fileURLToPath(import.meta.url));
const [curbstop, ...more] = process.argv.slice(2);
const times = 9;

function run(program, args, options) {
  const done = spawnSync(program, args, { encoding: "utf8", maxBuffer: 1 << 28, ...options });
  if (done.status !== 0) {
    throw new Error(`${program} ${args.join(" ")}: ${done.stderr ?? done.error}`);
  }
  return done.stdout;
}
const median = (numbers) => [...numbers].sort((a, b) => a - b)[numbers.length >> 1];
const said = (numbers) => `median ${median(numbers).toFixed(0)} ms, fastest ${Math.min(...numbers).toFixed(0)} ms`;

const folder = mkdtempSync(join(tmpdir(), "curbstop-opens-"));
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] });
try {
  console.log(`${cpus().length} processors, Chromium ${browser.version()}, ${times} times each`);
  for (const [parts, steps, unknowns, options] of [[60, 80, 12, 8], [200, 500, 20, 20]]) {
    const source = join(folder, "work.curb");
    const sheet = join(folder, "work.html");
    writeFileSync(source, run("python3", ["-B", "-c", `import work; print(work.write(${parts}, ${steps}, ${unknowns}, ${options}))`],
      { cwd: here }));
    run(curbstop, ["sheet", source, "-o", sheet, ...more]);
    const found = { opened: [], processor: [], ticked: [], narrowed: [] };
    for (let i = 0; i < times; ++i) {
      const context = await browser.newContext({ viewport: { width: 360, height: 740 } });
      await context.addInitScript(() => {
        document.addEventListener("sheet:step", () => { window.ready ??= performance.now(); });
      });
      const page = await context.newPage();
      // Processor time of the page's main thread: what else the machine does does not count.
      const devtools = await context.newCDPSession(page);
      await devtools.send("Performance.enable", { timeDomain: "threadTicks" });
      await page.goto(pathToFileURL(sheet).href);
      // From the start of the navigation until everything listens; from a click until the page is painted anew.
      found.opened.push(await page.evaluate(() => new Promise((resolve) => {
        const look = () => (window.ready ? requestAnimationFrame(() => resolve(window.ready)) : setTimeout(look, 1));
        look();
      })));
      const { metrics } = await devtools.send("Performance.getMetrics");
      found.processor.push(metrics.find(({ name }) => name === "TaskDuration").value * 1000);
      const painted = (selector) => page.evaluate((selector) => new Promise((resolve) => {
        const start = performance.now();
        document.querySelector(selector).click();
        requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - start)));
      }), selector);
      found.ticked.push(await painted('.step input[type="checkbox"]'));
      found.narrowed.push(await painted('.picker input[value="has_not"]'));
      await context.close();
    }
    console.log(`${steps} steps, ${options} options: ${(statSync(sheet).size / 1e6).toFixed(2)} MB`);
    console.log(`  can be worked after   ${said(found.opened)}`);
    console.log(`    processor time      ${said(found.processor)}`);
    console.log(`  a tick is shown after ${said(found.ticked)}`);
    console.log(`  a variant after       ${said(found.narrowed)}`);
  }
} finally {
  await browser.close();
  rmSync(folder, { recursive: true });
}
