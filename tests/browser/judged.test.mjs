// Whether everybody can read it, by the rules of others: axe-core, for WCAG 2.0 to 2.2, levels A and AA.
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { dirname } from "node:path";
import test from "node:test";

import { device, heronmoor, in_use, overflow, read, write_sheet } from "./sheet.mjs";

const axe = read(dirname(createRequire(import.meta.url).resolve("axe-core")), "axe.min.js");
const sheets = {
  lay_up: heronmoor(),
  boat: write_sheet("examples/boat/gribble.curb", "fit_out", []),
};

async function judge(page) {
  // axe is put in by the driver, past the page's own policy. What lies under the bar it cannot judge, so that is taken
  // from over the page; nor text in drawings, which the next test looks at.
  await page.evaluate(() => {
    document.querySelector("#bar").style.position = "static";
    for (const scroller of document.querySelectorAll(".scroll")) {
      scroller.style.overflow = "visible"; // nor what is scrolled out of sight
    }
  });
  const results = await page.evaluate(async () => window.axe.run(document, {
    runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"], resultTypes: ["violations", "incomplete", "passes"],
  }));
  const told = (list) => list.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map(({ target, failureSummary }) => `${target} ${failureSummary}`).join("; ")}`);
  assert.deepEqual(told(results.violations), []);
  const contrast = results.passes.find(({ id }) => id === "color-contrast");
  assert.ok(contrast && contrast.nodes.length > 100, "contrast was not looked at");
  const in_doubt = results.incomplete.filter(({ id }) => id === "color-contrast")
    .map((result) => ({ ...result, nodes: result.nodes.filter(({ html }) => !html.startsWith("<text")) }))
    .filter(({ nodes }) => nodes.length > 0);
  assert.deepEqual(told(in_doubt), []);
  assert.ok(results.passes.some(({ id }) => id === "target-size"));
}

for (const theme of ["bright", "dark"]) {
  for (const width of [360, 768, 1280]) {
    test(`axe finds nothing: ${theme}, ${width} px`, async (t) => {
      // The device says the other, and is not asked.
      const context = await device(t, { viewport: { width, height: 900 }, colorScheme: theme === "dark" ? "light" : "dark" });
      await context.addInitScript(axe);
      await context.addInitScript((theme) => {
        if (location.protocol === "file:") { // the blank page before it keeps nothing
          localStorage.setItem("curbstop-view", JSON.stringify({ theme, large: false }));
        }
      }, theme);
      const page = await in_use(context, width === 768 ? sheets.boat : sheets.lay_up);
      const [r] = (await page.evaluate(() => getComputedStyle(document.body).backgroundColor)).match(/\d+/);
      assert.ok(theme === "dark" ? Number(r) < 40 : Number(r) > 240, "the theme does not show");
      const { page: beyond, wide } = await overflow(page);
      assert.deepEqual([beyond, wide], [0, []]);
      await judge(page);
    });
  }
}

test("the bright theme reads in the sun: every text at least 7 to 1 (WCAG 2.2, 1.4.6)", async (t) => {
  const context = await device(t);
  await context.addInitScript(axe);
  const page = await in_use(context, sheets.lay_up);
  const ratios = await page.evaluate(async () => {
    const { passes, violations, incomplete } = await window.axe.run(document, { runOnly: ["color-contrast-enhanced"], rules: { "color-contrast-enhanced": { enabled: true } } });
    return { looked: passes[0]?.nodes.length ?? 0, wrong: [...violations, ...incomplete].flatMap(({ nodes }) => nodes.map(({ target, any }) => `${target} ${any[0]?.message}`)) };
  });
  assert.ok(ratios.looked > 100);
  assert.deepEqual(ratios.wrong.slice(0, 5), []);
});

// Contrast as WCAG 2.2 defines it ("contrast ratio", "relative luminance").
for (const theme of ["light", "dark"]) {
  test(`drawings have the ground of the page, and ink on it of at least 7 to 1: ${theme}`, async (t) => {
    const page = await in_use(await device(t, { colorScheme: theme }), sheets.lay_up);
    const found = await page.evaluate(() => {
      const parts = (colour) => colour.match(/[\d.]+/g).slice(0, 3).map(Number);
      const luminance = (colour) => parts(colour).map((each) => each / 255)
        .map((each) => (each <= 0.04045 ? each / 12.92 : ((each + 0.055) / 1.055) ** 2.4))
        .reduce((sum, each, i) => sum + each * [0.2126, 0.7152, 0.0722][i], 0);
      const ground = getComputedStyle(document.body).backgroundColor;
      const ratio = (colour) => {
        const [a, b] = [luminance(colour), luminance(ground)].sort((x, y) => y - x);
        return (a + 0.05) / (b + 0.05);
      };
      const inks = [...document.querySelectorAll(".drawing svg text")].map((node) => getComputedStyle(node).fill);
      const strokes = [...document.querySelectorAll(".drawing svg path")].map((node) => getComputedStyle(node).stroke);
      const grounds = [...document.querySelectorAll('.drawing .scroll svg > rect:first-of-type')].map((node) => getComputedStyle(node).fill);
      return { least: Math.min(...[...inks, ...strokes].map(ratio)), many: inks.length, grounds: [...new Set(grounds)], ground };
    });
    assert.ok(found.many > 50);
    assert.ok(found.least >= 7, `${found.least}`);
    assert.deepEqual(found.grounds, [found.ground]);
  });
}
