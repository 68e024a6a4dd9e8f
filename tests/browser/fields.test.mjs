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
  assert.match(plain(await step.locator(".wrong").innerText()), /This is no number\. Write the number alone, for example -?12\.5; the unit stands beside it\./);
  assert.equal(await input.evaluate((node) => document.getElementById(node.getAttribute("aria-describedby")).className), "wrong");
  for (const number of ["-22", "-23,5", "\u221223.5", "-1 200"]) { // as cold as is asked for
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

test("what is no temperature is not below zero, and no minus sign is asked for", async (t) => {
  const page = await open(await device(t), sheet);
  const step = page.locator(".step", { has: page.locator('.field:has-text("Pressure on the regulator")') }).first();
  const input = step.locator("input[data-number]").first();
  const wrong = async () => plain(await step.locator(".wrong").innerText());
  await input.fill("20");
  await input.blur();
  assert.match(await wrong(), /^Do not go on: 20 bar is not what must be found, which is .*does not count as done\.$/);
  await input.fill("-2");
  await input.blur();
  assert.match(await wrong(), /^Less than nothing cannot be\./);
  assert.equal(await step.evaluate((node) => node.classList.contains("done")), false);
  await input.fill("0");
  await input.blur();
  assert.equal(await step.locator(".wrong").count(), 0);
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
  const bleach = page.locator(".step .field", { hasText: "Bleach" });
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
  assert.match(told, /^Began at 0?9:00.*: over at .*, not before\.$/);
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

const beyond = [["lay_up", "Freezes at", "-10", "-21", true], ["lay_up", "Pressure on the regulator", "20", "2", false],
  ["recommission", "Free chlorine after the wait", "5", "50", false]];
for (const [procedure, words, wrong, right, sign] of beyond) {
  test(`a reading beyond its bound is kept, said to be so, and holds its step open: ${words}`, async (t) => {
    const page = await open(await device(t), write_sheet("examples/heronmoor/heronmoor.curb", procedure));
    const step = page.locator(".step", { has: page.locator(`.field:has-text("${words}")`) }).first();
    const input = step.locator("input[data-bounds]").first();
    for (const box of await step.locator(".tick input[data-id]:visible").all()) {
      await box.check();
    }
    for (const waited of await step.locator(".waited:visible").all()) {
      await waited.check();
    }
    const is_done = () => step.evaluate((node) => node.classList.contains("done"));
    assert.equal(await is_done(), false); // what is to be measured is missing
    await input.fill(wrong);
    await input.blur();
    assert.equal(await is_done(), false);
    assert.equal(await input.inputValue(), wrong);
    assert.equal(await input.getAttribute("aria-invalid"), "true");
    assert.match(plain(await step.locator(".wrong").innerText()), /^Do not go on: .* is not what must be found/);
    await page.reload();
    assert.equal(await is_done(), false);
    if (sign) { // the forgotten minus
      await input.fill("22");
      await input.blur();
      assert.match(plain(await step.locator(".wrong").innerText()), /Is a minus sign missing\?$/);
    }
    await input.fill(right); // the bound itself is within it
    await input.blur();
    assert.equal(await is_done(), true);
    assert.equal(await step.locator(".wrong").count(), 0);
    await step.locator("[data-not-measured]").first().check();
    assert.match(plain(await step.locator(".wrong").innerText()), /^Not measured: nobody knows/);
  });
}

test("another unit has its own bound: -5.8 F is -21 C (exact by definition)", async (t) => {
  const page = await open(await device(t), sheet);
  const step = page.locator("#step-5");
  await step.locator("select").selectOption("[degF]");
  const input = step.locator("input[data-bounds]");
  await input.fill("-5,7");
  assert.equal(await step.evaluate((node) => node.classList.contains("done")), false);
  await input.fill("\u22125.8");
  assert.equal(await step.evaluate((node) => node.classList.contains("done")), true);
});

test("a reading beyond its bound opens the box for that case", async (t) => {
  const page = await open(await device(t), sheet, { folded: true });
  const input = page.locator('[data-bounds]').nth(2);
  const box = page.locator(".step:has([data-bounds]) + .box.in-case");
  assert.equal(await box.count(), 1);
  assert.match(await box.getAttribute("class"), /folded/);
  await input.fill("-3");
  await input.blur();
  assert.doesNotMatch(await box.getAttribute("class"), /folded/);
});

test("a wait is done when its time is up, over reloads, or when it was waited by another clock", async (t) => {
  const context = await device(t, { locale: "en-GB", timezoneId: "UTC" });
  const page = await context.newPage();
  await page.clock.install({ time: new Date("2025-10-31T09:00:00Z") });
  await page.goto(`file://${write_sheet("examples/heronmoor/heronmoor.curb", "recommission")}`);
  await unfold(page);
  // A step that is a wait and nothing else.
  const step = page.locator(".step:has([data-wait]):not(:has(.field:not(.clocked)))").first();
  const seconds = Number(await step.locator("[data-wait]").getAttribute("data-wait"));
  const is = (name) => step.evaluate((node, name) => node.classList.contains(name), name);
  await step.locator("[data-wait] > .tick input").check();
  assert.deepEqual([await is("waiting"), await is("done")], [true, false]);
  assert.match(plain(await step.locator(".waiting-mark").innerText()), /^waiting until /);
  await page.reload();
  await unfold(page);
  assert.deepEqual([await is("waiting"), await is("done")], [true, false]);
  // It began earlier than it was ticked: half an hour less is left.
  await step.locator(".wait-began").fill("08:30");
  assert.match(plain(await step.locator(".ready-at").innerText()), /^Began at 0?8:30/);
  await page.clock.fastForward((seconds - 1860) * 1000);
  assert.equal(await is("done"), false);
  await page.clock.fastForward(120000);
  assert.equal(await is("done"), true); // by itself
  assert.match(plain(await said(page)), /^The wait is over\. Step: \d+\.$/);
  await page.locator("#clear-record").click();
  await page.locator('#clear-question [value="clear"]').click();
  await step.locator("[data-wait] > .tick input").check();
  assert.equal(await is("done"), false);
  await step.locator(".waited").check();
  assert.equal(await is("done"), true);
  await page.locator("#take-back").click();
  assert.equal(await is("done"), false);
});

test("whoever goes on before a wait is over has that on the card, with every tick", async (t) => {
  const page = await open(await device(t), write_sheet("examples/heronmoor/heronmoor.curb", "recommission"));
  const number = await page.evaluate(() => {
    const step = [...document.querySelectorAll(".step:not(.in-case *):has(> .lines > [data-wait])")][0];
    step.querySelector("[data-wait] > .tick input").click();
    return Number(step.id.slice(5));
  });
  const next = page.locator(`.step:not(.in-case *)`).filter({ has: page.locator(".tick") })
    .and(page.locator(`#step-${number} ~ .step, .stage:has(#step-${number}) ~ .stage .step`)).first();
  const boxes = await next.locator(".tick input[data-id]:visible").all();
  for (const box of boxes) {
    await box.check();
    assert.match(plain(await said(page)), new RegExp(`^Step ${number} is not ready before `));
  }
  assert.match(plain(await next.locator(".too-early").innerText()), new RegExp(`^Step ${number} is not ready before `));
  await page.reload();
  assert.equal(await next.locator(".too-early").isVisible(), true);
});

test("a repeat counts its rounds, and another round begins with its ticks cleared; undo brings them back", async (t) => {
  const page = await open(await device(t), sheet);
  const round = page.locator(".round").first();
  const ticks = () => round.evaluate((node) => node.parentElement.querySelectorAll(".tick input:checked").length);
  await round.evaluate((node) => node.parentElement.querySelectorAll(".tick input").forEach((input) => input.checked || input.click()));
  const all = await ticks();
  assert.ok(all > 0);
  assert.match(plain(await round.innerText()), /^Round 1 of at most \d+\. Is it so now\?/);
  await page.locator("#next-open").click(); // asks before it goes on
  assert.equal(await round.locator(".round-told").evaluate((node) => node === document.activeElement), true);
  await round.locator("button").click();
  assert.equal(await ticks(), 0);
  assert.match(plain(await round.innerText()), /^Round 2 of/);
  await page.reload();
  assert.match(plain(await round.innerText()), /^Round 2 of/);
  await page.locator("#take-back").click();
  assert.equal(await ticks(), all);
  assert.match(plain(await round.innerText()), /^Round 1 of/);
  // With steps of the round open, the first press says which, and clears nothing; the second one means it.
  const last = round.locator("xpath=..").locator(".tick input").last();
  await last.uncheck();
  const number = await last.evaluate((input) => input.closest(".step").querySelector(".number").textContent.trim());
  await round.locator("button").click();
  assert.match(plain(await round.innerText()), new RegExp(`^Still open in this round. Steps: .*\\b${number}\\b`));
  assert.equal(await ticks(), all - 1);
  await last.check();
  assert.match(plain(await round.innerText()), /^Round 1 of/);
  const most = Number(await round.getAttribute("data-rounds"));
  for (let i = 1; i < most; i += 1) {
    await round.locator("button").click();
    if (i > 1) { // nothing is ticked in it
      assert.match(plain(await round.innerText()), /^Still open in this round/);
      await round.locator("button").click();
    }
  }
  assert.match(plain(await round.innerText()), /the last/);
  assert.equal(await round.locator("button").isVisible(), false);
});
