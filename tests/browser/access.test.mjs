// Whether everybody can use it: keyboard, screen readers, gloves, dark, calm, hostile labels. Sizes are those of WCAG 2.2
// (2.5.8) and, for gloves, ours.
import assert from "node:assert/strict";
import { readdirSync } from "node:fs";
import { join } from "node:path";
import test from "node:test";

import { count, device, heronmoor, in_use, open, overflow, plain, read, ticked } from "./sheet.mjs";

const sheets = { lay_up: heronmoor() };
const hostile = readdirSync(process.env.SAMPLES).filter((name) => /^[^.]+\.html$/.test(name)); // the pocket form has no controls

test("large targets are at least 60 pixels high, and nothing leaves the page", async (t) => {
  for (const width of [360, 768]) {
    const context = await device(t, { viewport: { width, height: 740 } });
    const page = await in_use(context, sheets.lay_up);
    await page.locator("#large-targets").check();
    const small = await page.evaluate(() => [...document.querySelectorAll("a, button, input, select, summary")]
      .filter((node) => node.checkVisibility() && !node.matches(".skip"))
      .map((node) => ({ target: node.matches("input") ? node.closest("label.tick, label.choice, label.file") ?? node : node }))
      .filter(({ target }) => target.getBoundingClientRect().height < 60)
      .map(({ target }) => `${target.outerHTML.slice(0, 80)} ${target.getBoundingClientRect().height}`));
    assert.deepEqual(small.slice(0, 5), []);
    const { page: beyond, wide } = await overflow(page);
    assert.deepEqual([beyond, wide], [0, []]);
    await page.reload();
    assert.equal(await page.locator("html").getAttribute("data-targets"), "large");
    assert.equal(await page.locator("#large-targets").isChecked(), true);
  }
});

test("as the device says: the same colours as when they are chosen", async (t) => {
  for (const theme of ["bright", "dark"]) {
    const page = await open(await device(t, { colorScheme: theme === "dark" ? "dark" : "light" }), sheets.lay_up);
    const colours = () => page.evaluate(() => {
      const style = getComputedStyle(document.documentElement);
      return ["color-scheme", ..."ink soft paper wash line deep on-deep mark danger notice done".split(" ").map((each) => `--${each}`)]
        .map((name) => style.getPropertyValue(name));
    });
    const by_device = await colours();
    assert.ok(by_device.every((each) => each !== ""));
    await page.locator("#desk summary").click();
    await page.getByRole("radio", { name: theme }).check();
    assert.deepEqual(await colours(), by_device);
    await page.emulateMedia({ colorScheme: theme === "dark" ? "light" : "dark" });
    assert.deepEqual(await colours(), by_device);
  }
});

// WCAG 2.2, 1.4.6 and 1.4.11: 7 to 1 for text, 3 to 1 for what is drawn; relative luminance as it defines it.
test("in colours that the reader has laid down, signs and drawings stand out, whatever theme is chosen", async (t) => {
  for (const colorScheme of ["light", "dark"]) {
    const page = await open(await device(t, { colorScheme, forcedColors: "active" }), sheets.lay_up);
    await page.locator("#desk summary").click();
    for (const theme of ["bright", "dark"]) {
      await page.getByRole("radio", { name: theme }).check();
      const least = await page.evaluate(() => {
        const luminance = (colour) => {
          const [r, g, b] = colour.match(/[\d.]+/g).slice(0, 3).map((each) => each / 255)
            .map((each) => (each <= 0.04045 ? each / 12.92 : ((each + 0.055) / 1.055) ** 2.4));
          return 0.2126 * r + 0.7152 * g + 0.0722 * b;
        };
        const ratio = (a, b) => (Math.max(luminance(a), luminance(b)) + 0.05) / (Math.min(luminance(a), luminance(b)) + 0.05);
        const ground = getComputedStyle(document.body).backgroundColor;
        const seen = [...document.querySelectorAll(".pic path, .pic text, .key-sign path, .drawing svg text, .drawing svg path")]
          .filter((node) => node.checkVisibility());
        const inks = seen.flatMap((node) => {
          const { fill, stroke } = getComputedStyle(node);
          return node.tagName === "text" ? [fill] : [stroke];
        }).filter((each) => each !== "none");
        return { inks: inks.length, ratio: Math.min(...inks.map((ink) => ratio(ink, ground))) };
      });
      assert.ok(least.inks > 500 && least.ratio >= 7, JSON.stringify({ colorScheme, theme, ...least }));
    }
  }
});

test("the chosen colours are kept, and there before anything is painted", async (t) => {
  const context = await device(t, { colorScheme: "light" });
  const page = await open(context, sheets.lay_up);
  await page.locator("#desk summary").click();
  await page.getByRole("radio", { name: "dark" }).check();
  const dark = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  // With the module left out, which is all that runs after the page is there.
  const next = await context.newPage();
  await next.route("**/*", (route) => route.continue());
  await next.addInitScript(() => {
    new MutationObserver(() => {
      window.first ??= document.body && getComputedStyle(document.body).backgroundColor;
    }).observe(document, { childList: true, subtree: true });
  });
  await next.goto(page.url());
  assert.equal(await next.evaluate(() => window.first), dark);
  await page.getByRole("radio", { name: "as the device" }).check();
  assert.notEqual(await page.evaluate(() => getComputedStyle(document.body).backgroundColor), dark);
  await page.emulateMedia({ colorScheme: "dark" });
  assert.equal(await page.evaluate(() => getComputedStyle(document.body).backgroundColor), dark);
});

test("with the keyboard alone", async (t) => {
  const page = await open(await device(t), sheets.lay_up);
  const focused = () => page.evaluate(() => {
    const { id, name, value, dataset, tagName } = document.activeElement;
    const { outlineStyle, outlineWidth } = getComputedStyle(document.activeElement);
    const label = document.activeElement.closest("label");
    const around = label && getComputedStyle(label).outlineStyle !== "none";
    return { id, name, value, item: dataset.id, tag: tagName, seen: (outlineStyle !== "none" && parseFloat(outlineWidth) >= 2) || around };
  });
  await page.keyboard.press("Tab");
  assert.match(await page.evaluate(() => document.activeElement.innerText), /Skip to the steps/);
  assert.ok(await page.evaluate(() => document.activeElement.getBoundingClientRect().left >= 0));
  // To the variants first, without the mouse.
  while (!(await focused()).name?.startsWith("option-")) {
    await page.keyboard.press("Tab");
  }
  assert.equal((await focused()).name, "option-0");
  await page.keyboard.press("ArrowRight");
  assert.equal((await focused()).value, "has");
  // Then through the head to the first thing to tick.
  const order = [];
  while (order.length < 60 && !order[order.length - 1]?.item) {
    await page.keyboard.press("Tab");
    order.push(await focused());
    assert.ok(order[order.length - 1].seen, `no focus is seen on ${JSON.stringify(order[order.length - 1])}`);
    if (order[order.length - 1].tag === "SUMMARY") {
      await page.keyboard.press("Enter");
    }
  }
  for (const reached of ["large-targets", "save-record", "open-record"]) {
    assert.ok(order.some(({ id }) => id === reached), `${reached} is not reached`);
  }
  await page.keyboard.press("Space");
  const { item } = await focused();
  assert.deepEqual(await ticked(page), [item]);
  // To the bar from below, as it is the last thing on the page: undo, next open step.
  await page.locator("#take-back").focus();
  await page.keyboard.press("Enter");
  assert.deepEqual(await ticked(page), []);
  await page.keyboard.press("Shift+Tab");
  assert.equal((await focused()).id, "next-open");
  // By way of what comes before the steps, each once.
  for (const before of [".ready", ".start-table"]) {
    await page.keyboard.press("Enter");
    assert.ok(await page.evaluate((before) => document.activeElement.closest(before) !== null, before), before);
    await page.locator("#next-open").focus();
  }
  await page.keyboard.press("Enter");
  assert.equal(await page.evaluate(() => document.activeElement.closest(".step")?.id), "step-1");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Space");
  assert.match(plain(await count(page)), /^Done: 1 of/);
  // Whatever has the focus is not under the bar.
  for (let i = 0; i < 40; ++i) {
    await page.keyboard.press("Tab");
    const covered = await page.evaluate(() => {
      const bar = document.querySelector("#bar");
      const { bottom } = document.activeElement.getBoundingClientRect();
      return !bar.contains(document.activeElement) && bottom > bar.getBoundingClientRect().top + 1;
    });
    assert.equal(covered, false, `the focus is under the bar: ${JSON.stringify(await focused())}`);
  }
});

test("everything that can be worked has a name, and no two items in the record the same one", async (t) => {
  const page = await open(await device(t), sheets.lay_up);
  const unnamed = await page.evaluate(() => [...document.querySelectorAll("button, input, select, summary, progress")].filter((node) =>
    !(node.ariaLabel || node.getAttribute("aria-labelledby") || node.labels?.[0]?.textContent.trim() || node.textContent.trim())).length);
  assert.equal(unnamed, 0);
  const ids = await page.locator("[data-id]").evaluateAll((all) => all.map(({ dataset }) => dataset.id));
  assert.equal(new Set(ids).size, ids.length);
  assert.equal(await page.locator("#said").getAttribute("role"), "status");
});

test("nothing moves by itself, whoever asks for calm or not", async (t) => {
  for (const reducedMotion of ["reduce", "no-preference"]) {
    const page = await open(await device(t, { reducedMotion }), sheets.lay_up);
    await page.evaluate(() => document.querySelectorAll('#step-1 input, #step-2 input, #step-3 input').forEach((box) => box.click()));
    // The jump is over when the click is.
    const [before, after] = await page.evaluate(() => {
      document.querySelector("#next-open").click();
      const at = scrollY;
      return new Promise((resolve) => setTimeout(() => resolve([at, scrollY]), 500));
    });
    assert.ok(before > 500);
    assert.equal(before, after);
    assert.deepEqual(await page.evaluate(() => [...document.querySelectorAll("*")].filter((node) => {
      const { animationName, transitionDuration, scrollBehavior } = getComputedStyle(node);
      return animationName !== "none" || parseFloat(transitionDuration) > 0 || scrollBehavior === "smooth";
    }).length), 0);
  }
});

test("hostile labels are text, break no layout and run nothing", async (t) => {
  assert.ok(hostile.length > 5);
  const context = await device(t, { viewport: { width: 360, height: 740 } });
  const labels = JSON.parse(read(process.env.SAMPLES, "labels.json"));
  for (const name of hostile) {
    const page = await open(context, join(process.env.SAMPLES, name));
    page.on("dialog", () => assert.fail(`${name} opened a dialog`));
    await page.locator("#desk").evaluate((node) => { node.open = true; });
    await page.evaluate(() => document.querySelectorAll('.step input[type="checkbox"]').forEach((box) => box.click()));
    const { page: beyond, wide } = await overflow(page);
    assert.deepEqual([name, beyond, wide], [name, 0, []]);
    // Where HTML can hold no such character, the sign for "replaced" stands (Unicode, U+FFFD).
    const label = labels[name.replace(/\.html$/, "")]?.replace(/\s+/g, " ").replace(/[\uFFFE\uFFFF]/g, "\uFFFD")
      .replaceAll(/`([^`]+)`/g, "$1").trim(); // what stands between two back-ticks is set off without them
    if (label) {
      const record = await page.evaluate(() => JSON.parse(localStorage.getItem(Object.keys(localStorage).find((key) => /^curbstop-record(?!.*undo$)/.test(key)))));
      assert.equal(record.system.label.replace(/\s+/g, " ").trim(), label, name);
    }
    await page.evaluate(() => localStorage.clear()); // pages from files share it
    await page.close();
  }
});

for (const [name, viewport, letters] of [["zoomed", { width: 180, height: 370 }, ""], ["set large", { width: 360, height: 740 }, "200%"]]) {
  test(`with text at 200 %, ${name}, the bar leaves the step its room and nothing is wider than the window`, async (t) => {
    const page = await open(await device(t, { viewport }), sheets.lay_up);
    await page.evaluate((letters) => {
      document.documentElement.style.fontSize = letters;
      document.querySelector("#step-5").scrollIntoView();
    }, letters);
    const share = await page.evaluate(() => document.querySelector("#bar").getBoundingClientRect().height / innerHeight);
    assert.ok(share < 0.25, `the bar takes ${share} of the window`);
    for (const id of ["#next-open", "#take-back"]) {
      const box = await page.locator(id).boundingBox();
      assert.ok(box.x >= 0 && box.x + box.width <= viewport.width && box.y + box.height <= viewport.height, `${id} is cut off`);
      assert.ok(box.height >= 24 && box.height < viewport.height / 6, `${id} is ${box.height} high`); // WCAG 2.2, 2.5.8
    }
    assert.ok((await overflow(page)).page <= 0, JSON.stringify(await overflow(page)));
  });
}
