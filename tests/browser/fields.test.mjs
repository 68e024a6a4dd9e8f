// What is filled in: numbers and their units, what was not measured, waits by the clock.
import assert from "node:assert/strict";
import test from "node:test";

import { count, device, filled, heronmoor, open, plain, said, unfold, write_sheet } from "./sheet.mjs";

const sheet = heronmoor();
const done = async (page) => Number(plain(await count(page)).match(/: (\d+) of/)[1]);
// A step in which there is nothing but something to fill in.
const only_fields = ".step:has(.field):not(:has(.tick))";

test("a step that is only a field is done by a number, or by saying that nothing was measured", async (t) => {
  const page = await open(await device(t), sheet);
  const step = page.locator(only_fields).filter({ has: page.locator("input[data-number]") }).first();
  assert.ok(await step.count(), "the example has such a step");
  const input = step.locator("input[data-number]").first();
  await input.fill("abc");
  assert.equal(await done(page), 0);
  await input.blur();
  assert.equal(await input.getAttribute("aria-invalid"), "true");
  assert.match(plain(await step.locator(".wrong").innerText()), /This is no number\. Write, for example, 12\.5\./);
  assert.equal(await input.evaluate((node) => document.getElementById(node.getAttribute("aria-describedby")).className), "wrong");
  for (const number of ["12", "-3,5", "\u22123.5", "1 200"]) {
    await input.fill(number);
    assert.equal(await done(page), 1, number);
  }
  await input.blur();
  assert.equal(await step.locator(".wrong").count(), 0);
  assert.equal(await input.getAttribute("aria-invalid"), null);
  await input.fill("");
  assert.equal(await done(page), 0);
  const unmeasured = step.locator("[data-not-measured]").first();
  await unmeasured.check();
  assert.equal(await done(page), 1);
  await page.reload();
  assert.equal(await unmeasured.isChecked(), true);
  assert.equal(await done(page), 1);
  await input.fill("7"); // it was, after all
  assert.equal(await unmeasured.isChecked(), false);
  await page.locator("#take-back").click();
  assert.equal(await unmeasured.isChecked(), true);
  assert.equal(await input.inputValue(), "");
});

test("numbers get the number pad, but where a minus sign may be needed", async (t) => {
  const page = await open(await device(t), sheet);
  const modes = await page.locator(".step input[data-number]").evaluateAll((all) => all.map((input) =>
    [[...input.closest(".field").querySelectorAll("option")].some(({ value }) => value === "Cel"), input.inputMode]));
  assert.ok(modes.length > 0);
  for (const [temperature, mode] of modes) {
    assert.equal(mode, temperature ? "" : "decimal");
  }
});

test("the author's unit comes first, and only its counterpart beside it", async (t) => {
  const page = await open(await device(t), write_sheet("examples/heronmoor/heronmoor.curb", "recommission"));
  const bleach = page.locator(".step .field", { hasText: "Bleach in half a jug" });
  assert.deepEqual(await bleach.locator("option").evaluateAll((all) => all.map(({ value }) => value)), ["mL", "[foz_us]"]);
  const chlorine = page.locator(".step .field", { hasText: "Free chlorine, ready to drink" });
  assert.equal(await chlorine.locator("option").count(), 0);
  assert.equal(await chlorine.locator("input[data-id]").getAttribute("data-unit"), "mg/L");
});

test("another unit takes away the number, with a word, and undo brings both back", async (t) => {
  const page = await open(await device(t), sheet);
  const field = page.locator(".step .field:has(select)").first();
  const [first, second] = await field.locator("option").evaluateAll((all) => all.map(({ value, textContent }) => ({ value, textContent })));
  await field.locator("input").first().fill("12");
  await field.locator("select").selectOption(second.value);
  assert.equal(plain(await said(page)), `The unit is now ${second.textContent}: fill in the number anew.`);
  assert.deepEqual(await filled(page), {});
  await page.locator("#take-back").click();
  assert.equal(await field.locator("input").first().inputValue(), "12");
  assert.equal(await field.locator("select").inputValue(), first.value);
});

test("a wait that is ticked tells by the clock when it is over, and warns who goes on before that", async (t) => {
  const context = await device(t, { locale: "en-GB", timezoneId: "UTC" });
  const page = await context.newPage();
  await page.clock.install({ time: new Date("2025-10-31T09:00:00Z") });
  await page.goto(`file://${write_sheet("examples/heronmoor/heronmoor.curb", "recommission")}`);
  await unfold(page);
  const [id, seconds] = await page.evaluate(() => {
    const lines = [...document.querySelectorAll(".step:not(.in-case *) > .lines > [data-wait]")];
    const line = lines.find((each) => Number(each.dataset.wait) >= 600);
    return [line.querySelector("input").dataset.id, Number(line.dataset.wait)];
  });
  const step = Number(/^step-(\d+)/.exec(id)[1]);
  const two = (number) => String(number).padStart(2, "0");
  const over = new Date(Date.UTC(2025, 9, 31, 9) + seconds * 1000);
  const end = `${two(over.getUTCHours())}:${two(over.getUTCMinutes())}`;
  await page.locator(`[data-id="${id}"]`).check();
  const told = plain(await page.locator(`[data-wait]:has([data-id="${id}"]) .ready-at`).innerText());
  assert.match(told, /^Ticked at 0?9:00.*: ready at .* if it began then\.$/);
  assert.match(told.replace(/(\d+):(\d+) PM/, (_, h, m) => `${Number(h) % 12 + 12}:${m}`), new RegExp(end.replace(/^0/, "0?")));
  const next = page.locator(`#step-${step} ~ .step input[type="checkbox"][data-id], .stage:has(#step-${step}) ~ .stage .step input[type="checkbox"][data-id]`).first();
  await next.check();
  assert.match(plain(await said(page)), new RegExp(`^Step ${step} is not ready before `));
  await next.uncheck();
  await page.clock.setSystemTime(new Date(over.getTime() + 60000));
  await next.check();
  assert.doesNotMatch(plain(await said(page)), /is not ready/);
});

test("what says that nothing was measured is a box like all others", async (t) => {
  const page = await open(await device(t, { viewport: { width: 360, height: 740 } }), sheet);
  const sizes = await page.evaluate(() => [...document.querySelectorAll("[data-not-measured], .step .tick input")]
    .filter((box) => box.checkVisibility())
    .map((box) => [box.getBoundingClientRect().width, box.getBoundingClientRect().height].join()));
  assert.equal(new Set(sizes).size, 1, [...new Set(sizes)].join("; "));
});
