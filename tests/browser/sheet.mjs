// What the tests of this folder share: a browser, a sheet in a file, and how to find one's way on the page.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before } from "node:test";
import { pathToFileURL } from "node:url";

import { chromium } from "playwright-core";

const { CHROMIUM, CURBSTOP, PROJECT } = process.env;
export const folder = mkdtempSync(join(tmpdir(), "curbstop-browser-"));
export const read = (...path) => readFileSync(join(...path), "utf8");

// Writes the sheet of an example's procedure and gives its path.
export function write_sheet(file, procedure, more = []) {
  const path = join(folder, `${procedure}.html`);
  const done = spawnSync(CURBSTOP, ["sheet", join(PROJECT, file), "--procedure", procedure, "-o", path, ...more],
    { encoding: "utf8" });
  assert.equal(done.status, 0, done.stderr);
  return path;
}
export const heronmoor = () => write_sheet("examples/heronmoor/heronmoor.curb", "lay_up");

let browser;
before(async () => {
  browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
});
after(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true });
});

// One reader's device: its own storage, closed at the end of the test. An error of the script fails the test.
export async function device(t, options = {}) {
  const context = await browser.newContext({ viewport: { width: 768, height: 900 }, reducedMotion: "reduce", ...options });
  context.setDefaultTimeout(10000);
  const wrong = [];
  context.on("weberror", (error) => wrong.push(String(error.error())));
  t.after(async () => {
    await context.close();
    assert.deepEqual(wrong, []);
  });
  return context;
}

// What is folded is unfolded, as a reader does who wants it all, unless the page is to be looked at as it opens.
export async function open(context, path, { folded = false } = {}) {
  const page = await context.newPage();
  await page.goto(pathToFileURL(path).href);
  if (!folded) {
    await unfold(page);
  }
  return page;
}
export const unfold = (page) => page.evaluate(() =>
  document.querySelectorAll('.fold-head button[aria-expanded="false"]').forEach((button) => button.click()));

export const tick = (page, id) => page.locator(`[data-id="${id}"]`);
export const count = (page) => page.locator("#count").innerText();
export const said = (page) => page.locator("#said").innerText();
// Without the marks that isolate the direction of what was filled in.
export const plain = (words) => words.replace(/[\u2066-\u2069]/g, "");
export const ticked = (page) =>
  page.evaluate(() => [...document.querySelectorAll("[data-id]:checked")].map(({ dataset }) => dataset.id));
export const filled = (page) => page.evaluate(() =>
  Object.fromEntries([...document.querySelectorAll('input[type="text"][data-id]')].filter(({ value }) => value)
    .map(({ dataset, value }) => [dataset.id, value])));

// By how much the page is wider than the window, and what sticks out.
export async function overflow(page) {
  return page.evaluate(() => {
    const room = document.documentElement.clientWidth;
    const wide = [...document.querySelectorAll("body *")].filter((node) =>
      node.checkVisibility() && !node.closest(".scroll, .skip") && node.getBoundingClientRect().right > room + 0.5);
    return { page: document.documentElement.scrollWidth - room, wide: wide.slice(0, 3).map((node) => node.outerHTML.slice(0, 120)) };
  });
}

// A page with something of everything on it: steps done, an option chosen, the desk open, a message.
export async function in_use(context, path) {
  const page = await open(context, path);
  await page.evaluate(() => {
    document.querySelector("#desk").open = true;
    for (const box of document.querySelectorAll('#step-1 input[type="checkbox"], #step-3 input[type="checkbox"]')) {
      box.click();
    }
    for (const field of document.querySelectorAll(".step input[data-number]")) {
      field.value = "?"; // no number: that is said
      field.dispatchEvent(new Event("input", { bubbles: true }));
      field.dispatchEvent(new Event("change", { bubbles: true }));
    }
    document.querySelector("[data-wait] input").click();
    document.querySelector("#clear-record").click();
    document.querySelector('.picker input[value="has_not"]')?.click();
    document.querySelector("#offer").hidden = false;
    document.querySelector("#offer p").textContent = "?";
    document.querySelector("#complaint").hidden = false;
    document.querySelector("#complaint").textContent = "?";
    document.querySelector("#report").textContent = "?";
  });
  return page;
}
