// Where the reader is: what stands on the first screen, how far the first step is, that the page keeps its height and its
// place, and what the bar says.
import assert from "node:assert/strict";
import test from "node:test";

import { device, heronmoor, open, plain, said, tick, unfold } from "./sheet.mjs";

const sheet = heronmoor();
const phone = { viewport: { width: 360, height: 740 } };
const where = async (page) => plain(await page.locator("#where").innerText());
const go_to = (page, step) => page.evaluate((step) => {
  document.getElementById(`step-${step}`).scrollIntoView();
  return new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
}, step);
const at = (page, step) => page.evaluate((step) => document.getElementById(`step-${step}`).getBoundingClientRect().top, step);

test("on a telephone the first screen has title, options and contents, and the first step is near", async (t) => {
  const page = await open(await device(t, phone), sheet, { folded: true });
  const { shown, first } = await page.evaluate(() => {
    const bar = document.querySelector("#bar").getBoundingClientRect().top;
    const whole = (selector) => {
      const box = document.querySelector(selector).getBoundingClientRect();
      return box.height > 0 && box.top >= 0 && box.bottom <= bar;
    };
    return {
      shown: [".system", "h1", ".picker", "nav li a"].map((selector) => [selector, whole(selector)]),
      first: document.querySelector(".step").getBoundingClientRect().top / innerHeight,
    };
  });
  assert.deepEqual(shown.filter(([, is]) => !is), []);
  assert.ok(first < 3, `the first step is ${first} screens down`);
  // "Start" leads to it, by way of what has to be looked at before, which it names once.
  await page.locator(".begin a").click();
  assert.match(plain(await said(page)), /^First this: 0 of \d+ are ticked/);
  const [ready, bar] = await page.evaluate(() => [document.querySelector(".ready h3"), document.querySelector("#bar")]
    .map((node) => node.getBoundingClientRect().top));
  assert.ok(ready >= -1 && ready < bar, `what to have ready is at ${ready}`);
  await page.locator("#not-compared").scrollIntoViewIfNeeded();
  assert.match(plain(await page.locator("#not-compared").innerText()), /compare .* 0 of \d+$/);
  await page.locator("#next-open").click();
  assert.match(plain(await said(page)), /^First this: 0 of \d+ are ticked/);
  const table = await page.evaluate(() => document.querySelector("#before").getBoundingClientRect().top);
  assert.ok(table >= -1 && table < bar, `the table of how all stands is at ${table}`);
  await page.evaluate(() => scrollTo(0, 0));
  await page.locator(".begin a").click();
  const top = await page.evaluate(() => document.querySelector(".stage h2").getBoundingClientRect().top);
  assert.ok(top >= -1 && top < 100, `the first stage is at ${top}`);
});

test("what is folded opens by itself where the reader is sent there, and is printed", async (t) => {
  const page = await open(await device(t), sheet, { folded: true });
  const folds = page.locator(".fold-head button");
  assert.ok(await folds.count() >= 4);
  assert.equal(await folds.and(page.locator('[aria-expanded="true"]')).count(), 0);
  assert.equal(await tick(page, "wear-1").isVisible(), false);
  await page.emulateMedia({ media: "print" });
  assert.equal(await tick(page, "wear-1").isVisible(), true);
  assert.equal(await page.locator(".step:visible").count(), await page.locator(".step").count());
  await page.emulateMedia({ media: "screen" });
  const remedy = page.locator(".box.in-case").first();
  assert.equal(await remedy.locator(".happened").isVisible(), false);
  await remedy.locator(".fold-head button").click();
  await remedy.locator(".happened input").check();
  await page.reload();
  assert.equal(await remedy.locator(".happened input").isVisible(), true);
});

test("the page is as high from the first as it is when all of it has been seen", async (t) => {
  const page = await open(await device(t, phone), sheet, { folded: true });
  const height = () => page.evaluate(() => document.documentElement.scrollHeight);
  const first = await height();
  for (let y = 0; y < first; y += 5000) {
    await page.evaluate((y) => scrollTo(0, y), y);
    await page.waitForTimeout(20);
  }
  assert.equal(await height(), first);
});

test("undo leaves the page where it is, or takes it to what was undone", async (t) => {
  const page = await open(await device(t, phone), sheet);
  await page.locator("#step-4 input[type='checkbox'][data-id]").first().check();
  const box = page.locator("#step-5 [data-id], #step-6 input[type='checkbox'][data-id]").last();
  await box.check();
  const before = await page.evaluate(() => scrollY);
  await page.locator("#take-back").click(); // the box is in sight
  assert.equal(await page.evaluate(() => scrollY), before);
  await go_to(page, 60);
  await page.locator("#take-back").click();
  assert.match(plain(await said(page)), /^Undone in step 4: /);
  const seen = await page.locator("#step-4 input[type='checkbox'][data-id]").first().boundingBox();
  assert.ok(seen.y > 0 && seen.y < 640, `what was undone is at ${seen.y}`);
  // What is said of options hides and shows things above: the step stays where it stands.
  for (const { value, undo } of [{ value: "has_not" }, { value: "has_not", undo: true }]) {
    await go_to(page, 60);
    const stood = await at(page, 60);
    if (undo) {
      await page.locator("#take-back").click();
      assert.match(plain(await said(page)), /^Undone: what was said of “Outside shower”\.$/);
    } else {
      await page.evaluate((value) => document.querySelector(`[data-option="outside_shower_fitted"] input[value="${value}"]`).click(), value);
    }
    assert.ok(Math.abs(await at(page, 60) - stood) < 2, `${undo ? "undone" : "said"}: step 60 moved from ${stood} to ${await at(page, 60)}`);
  }
});

test("the bar tells where one is, keeps its height, and lets messages go", async (t) => {
  const context = await device(t, phone);
  const page = await context.newPage();
  await page.clock.install();
  await page.goto(`file://${sheet}`);
  await unfold(page);
  const box = async () => page.locator("#bar").evaluate((bar) => {
    const { height } = bar.getBoundingClientRect();
    return [height, document.querySelector("#next-open").getBoundingClientRect().top];
  });
  const empty = await box();
  assert.ok(empty[0] < 130, `the bar is ${empty[0]} high`);
  assert.equal(await where(page), "Lay up for winter");
  await page.evaluate(() => document.getElementById("step-12").scrollIntoView());
  await page.waitForTimeout(200); // that it has scrolled is told by the browser's own clock
  await page.clock.runFor(100);
  assert.match(await where(page), /^Step 12: .+/);
  await page.locator("#step-12 input[type='checkbox'][data-id]").first().check();
  assert.match(plain(await said(page)), /^(Step 12 is done\. Still open before it|Still open before step 12): 1, 2, 3, 4 and others\.$/);
  assert.deepEqual(await box(), empty);
  assert.equal(await page.locator("#where").isVisible(), false);
  await page.mouse.move(0, 0);
  await page.clock.runFor(30000);
  assert.equal(await said(page), "");
  assert.match(await where(page), /^Step 12: /);
  assert.deepEqual(await box(), empty);
});

test("held flat, a telephone still shows more of the sheet than of the bar", async (t) => {
  const page = await open(await device(t, { viewport: { width: 740, height: 360 } }), sheet);
  const { height } = await page.locator("#bar").boundingBox();
  assert.ok(height <= 72, `the bar is ${height} high`);
});

test("what the bar says of one place is gone at another, and the drawings have the ground of the page", async (t) => {
  const page = await open(await device(t, { viewport: { width: 360, height: 740 }, colorScheme: "dark" }), sheet);
  await page.locator(".begin a").click();
  assert.match(plain(await said(page)), /^First this/);
  await page.waitForTimeout(300); // the page has come to rest
  await page.evaluate(() => scrollBy(0, 3 * innerHeight));
  await page.waitForFunction(() => document.querySelector("#said").textContent === "", null, { timeout: 2000 });
  const { oneLine, bright } = await page.evaluate(() => {
    const count = document.querySelector("#count");
    const canvas = document.createElement("canvas").getContext("2d");
    const light = (colour) => {
      canvas.fillStyle = colour;
      canvas.fillRect(0, 0, 1, 1);
      return Math.max(...canvas.getImageData(0, 0, 1, 1).data.slice(0, 3));
    };
    return {
      oneLine: count.getBoundingClientRect().height < 26 && count.scrollWidth <= count.clientWidth,
      bright: [...document.querySelectorAll(".drawing svg rect")].map((rect) => light(getComputedStyle(rect).fill))
        .filter((part) => part > 128).length,
    };
  });
  assert.equal(oneLine, true);
  assert.equal(bright, 0);
  // Nothing is to be slid while it is folded.
  const folded = await open(await device(t, { viewport: { width: 360, height: 740 } }), sheet, { folded: true });
  assert.equal(await folded.locator(".slides").isVisible(), false);
});

test("the first open row of the table is in view where one is led to it", async (t) => {
  const page = await open(await device(t, { viewport: { width: 360, height: 740 } }), sheet, { folded: true });
  await page.locator("#next-open").click();
  await page.waitForTimeout(200);
  assert.match(plain(await said(page)), /^First this/);
  const [first, bar] = await page.evaluate(() => {
    const boxes = [...document.querySelectorAll('.preparation .fold input[type="checkbox"][data-id]')].filter((box) => box.checkVisibility());
    return [boxes[0].getBoundingClientRect(), document.querySelector("#bar").getBoundingClientRect()].map(({ top }) => top);
  });
  assert.ok(first >= 0 && first < bar, `the first box is at ${first}, the bar at ${bar}`);
});

test("a page that is loaded again stands at the same step, whatever was unfolded above it", async (t) => {
  const page = await open(await device(t, phone), sheet, { folded: true });
  await page.locator(".begin a").click();
  await unfold(page);
  await go_to(page, 23);
  await page.evaluate(() => scrollBy(0, 40)); // not at its head
  const before = await at(page, 23);
  await page.reload();
  assert.ok(Math.abs(await at(page, 23) - before) < 2, `step 23 was at ${before} and is at ${await at(page, 23)}`);
  assert.match(await where(page), /^Step 23:/);
  // In a window of its own it begins at the top.
  const anew = await open(page.context(), sheet, { folded: true });
  assert.equal(await anew.evaluate(() => scrollY), 0);
});
