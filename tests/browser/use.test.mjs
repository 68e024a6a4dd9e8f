// What a reader does on the way: ticks, fills in, goes back, closes the page and opens it again.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import test from "node:test";

import { count, device, filled, heronmoor, open, plain, read, said, tick, ticked } from "./sheet.mjs";

const sheet = heronmoor();
const tick_step = async (page, step) => {
  for (const box of await page.locator(`#step-${step} input[type="checkbox"][data-id]`).all()) {
    await box.check();
  }
};

test("without script the sheet is complete and nothing stands there dead", async (t) => {
  const page = await open(await device(t, { javaScriptEnabled: false }), sheet);
  assert.ok(await page.locator("[data-needs-script]").count() > 2);
  for (const control of await page.locator("[data-needs-script], #texts, #offer, #complaint").all()) {
    assert.equal(await control.isVisible(), false);
  }
  const html = await page.content();
  assert.ok(await page.locator(".step").count() > 90);
  assert.equal(await page.locator(".step:visible").count(), await page.locator(".step").count());
  assert.equal(await page.locator(".line:visible").count(), await page.locator(".line:not(.on-paper)").count());
  assert.equal(await page.locator("[data-option-tick]:visible").count(), 3);
  assert.ok(html.includes("Tick what yours has"));
  await tick(page, "step-3-1").check();
});

test("nothing is fetched and no other script runs", async (t) => {
  const context = await device(t);
  const page = await context.newPage();
  const [requests, stopped] = [[], []];
  page.on("request", (request) => requests.push(request.url()));
  page.on("requestfailed", (request) => stopped.push(`${request.failure().errorText} ${request.url()}`));
  await page.goto(`file://${sheet}`);
  await tick(page, "step-3-1").check();
  assert.equal(requests.length, 1);
  // A policy is there to refuse (Content Security Policy level 3): script in the page, in an attribute, as text.
  const ran = await page.evaluate(async () => {
    const refused = [];
    document.addEventListener("securitypolicyviolation", ({ effectiveDirective }) => refused.push(effectiveDirective));
    const script = document.createElement("script");
    try {
      script.text = "window.ran = 1"; // a sink that wants a trusted type
    } catch {
      script.append("window.ran = 2");
    }
    document.body.append(script);
    try {
      document.body.setAttribute("onclick", "window.ran = 3");
    } catch {
      refused.push("trusted types");
    }
    document.body.click();
    const link = document.createElement("a");
    link.href = "javascript:window.ran = 4";
    document.body.append(link);
    link.click();
    const image = new Image();
    image.src = "https://example.org/pixel.png";
    await fetch("https://example.org/").catch(() => {});
    await new Promise((resolve) => setTimeout(resolve, 200));
    return { ran: window.ran ?? null, refused };
  });
  assert.equal(ran.ran, null);
  // And it lets in just what is there, by hashes that another library makes (SHA-256 by OpenSSL).
  const policy = await page.evaluate(() => document.querySelector('meta[http-equiv="Content-Security-Policy"]').content);
  const scripts = [...read(sheet).matchAll(/<script(?: type="module")?>([^]*?)<\/script>/g)].map(([, script]) => script);
  const hashes = scripts.map((script) => `'sha256-${createHash("sha256").update(script).digest("base64")}'`);
  assert.ok(scripts.length >= 2);
  assert.deepEqual(policy.match(/script-src ([^;]*);/)[1].split(" ").sort(), hashes.sort());
  assert.match(policy, /^default-src 'none'; style-src 'sha256-[^ ]*'; (img-src data:; )?script-src/);
  for (const directive of ["require-trusted-types-for", "trusted types", "img-src", "connect-src"]) {
    assert.ok(ran.refused.includes(directive), `${directive} was not refused: ${ran.refused}`);
  }
  // What was asked for beyond the page itself never left it: the policy stopped it.
  assert.equal(requests.length - stopped.length, 1);
});

test("ticks and fields survive closing the page", async (t) => {
  const context = await device(t);
  let page = await open(context, sheet);
  const [all] = plain(await count(page)).match(/\d+$/);
  assert.equal(plain(await count(page)), `Done: 0 of ${all}`);
  await tick_step(page, 1);
  const box = page.locator("#step-4 input[type='checkbox']").first();
  const id = await box.getAttribute("data-id");
  await box.check();
  const field = page.locator(".step .field:has(select) input").first();
  const field_id = await field.getAttribute("data-id");
  await page.locator(".step .field select").first().selectOption("[degF]");
  await field.fill("-27");
  const before = await ticked(page);
  assert.ok(before.includes(id));
  await page.close();
  page = await open(context, sheet);
  assert.deepEqual(await ticked(page), before);
  assert.deepEqual(await filled(page), { [field_id]: "-27" });
  assert.equal(await page.locator(".step select").first().inputValue(), "[degF]");
  assert.match(plain(await count(page)), new RegExp(`^Done: [123] of ${all}$`));
  // Another procedure's sheet knows nothing of it.
  await page.goto(`file://${sheet}`);
  const keys = await page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("curbstop-record")));
  assert.ok(keys.every((key) => key.includes(" heronmoor lay_up ")), keys.join());
});

test("undo goes back step by step, over a reload, and says what it undid", async (t) => {
  const page = await open(await device(t), sheet);
  await tick(page, "step-3-1").check();
  await tick(page, "after-1").check();
  await tick(page, "done-by").pressSequentially("Robin");
  await tick(page, "done-by").blur();
  await tick(page, "done-on").pressSequentially("31 Oct");
  await tick(page, "step-3-1").uncheck();
  await page.reload();
  assert.deepEqual(await ticked(page), ["after-1"]);
  const undo = page.locator("#take-back");
  await undo.click();
  assert.deepEqual(await ticked(page), ["step-3-1", "after-1"]);
  assert.match(plain(await said(page)), /^Undone in step 3: the tick at “.+”\.$/);
  await undo.click();
  assert.match(plain(await said(page)), /^Undone: the field “Done on”/);
  assert.deepEqual(await filled(page), { "done-by": "Robin" });
  await undo.click(); // the whole name, not one letter
  assert.deepEqual(await filled(page), {});
  await undo.click();
  await undo.click();
  assert.deepEqual(await ticked(page), []);
  assert.equal(await undo.getAttribute("aria-disabled"), "true");
  await undo.click({ force: true }); // the driver takes aria-disabled for disabled
  assert.match(await said(page), /nothing to undo/);
});

test("clearing everything is asked about, and can be taken back", async (t) => {
  const page = await open(await device(t), sheet);
  await tick_step(page, 1);
  await tick(page, "done-by").fill("Robin");
  const before = await ticked(page);
  await page.locator("#clear-record").click();
  assert.match(plain(await page.locator("#clear-question p").innerText()), new RegExp(`Ticks: ${before.length}\\. Fields: 1\\.`));
  await page.getByRole("button", { name: "Keep them" }).click();
  assert.deepEqual(await ticked(page), before);
  assert.equal(await page.locator("#clear-question").isVisible(), false);
  await page.locator("#clear-record").click();
  await page.getByRole("button", { name: "Clear them" }).click();
  assert.deepEqual(await ticked(page), []);
  assert.deepEqual(await filled(page), {});
  await page.locator("#take-back").click();
  assert.deepEqual(await ticked(page), before);
  assert.deepEqual(await filled(page), { "done-by": "Robin" });
});

test("a step is done when all in it is ticked, and is told by word and sign", async (t) => {
  const context = await device(t);
  await context.addInitScript(() => {
    window.reached = [];
    document.addEventListener("sheet:step", ({ detail }) => window.reached.push(detail.step));
  });
  const page = await open(context, sheet);
  const steps = await page.evaluate(() => [...document.querySelectorAll(".step")]
    .filter((step) => !step.closest(".in-case") && step.querySelector('input[type="checkbox"]'))
    .slice(0, 3).map(({ id }) => Number(id.slice(5))));
  await tick_step(page, steps[0]);
  assert.match(plain(await page.locator(`#step-${steps[0]} h3`).innerText()), /done \d/);
  assert.match(await page.evaluate((id) =>
    getComputedStyle(document.querySelector(`#step-${id} .done-mark`), "::before").content, steps[0]), /✓/);
  assert.equal(plain(await said(page)), `Step ${steps[0]} is done. Next open step: ${steps[1]}.`);
  // Done out of order: the state of the system is still that after the first.
  await tick_step(page, steps[2]);
  assert.equal(plain(await said(page)), `Step ${steps[2]} is done. Still open before it: ${steps[1]}.`);
  assert.deepEqual(await page.evaluate(() => window.reached), [0, steps[0]]);
  await tick_step(page, steps[1]);
  assert.deepEqual((await page.evaluate(() => window.reached)).slice(-1), [steps[2]]);
  await page.locator(`#step-${steps[0]} input[type="checkbox"]`).first().uncheck();
  assert.equal(plain(await said(page)), `Step ${steps[0]} is open again.`);
  assert.equal(await page.locator(`#step-${steps[0]} .done-mark`).count(), 0);
  assert.deepEqual((await page.evaluate(() => window.reached)).slice(-1), [0]);
});

test("the jump goes to the first open step and takes the focus along", async (t) => {
  const page = await open(await device(t), sheet);
  await tick_step(page, 1);
  const next = plain(await said(page)).match(/Next open step: (\d+)/)[1];
  await page.locator("#next-open").click();
  assert.equal(await page.evaluate(() => document.activeElement.closest(".step")?.id), `step-${next}`);
  const { y } = await page.locator(`#step-${next} h3`).boundingBox();
  assert.ok(y >= 0 && y < 200, `the heading is at ${y}`);
});

test("what is done only if it comes to that does not count until it has come to that", async (t) => {
  const page = await open(await device(t), sheet);
  const [, all] = plain(await count(page)).match(/of (\d+)$/);
  const remedy = page.locator(".box.in-case .step input[type='checkbox']").first();
  assert.ok(await remedy.count(), "the example has a remedy with steps");
  await remedy.check();
  const [, more] = plain(await count(page)).match(/of (\d+)$/);
  assert.ok(Number(more) > Number(all));
});

for (const [name, spoil] of [
  ["is refused", () => Object.defineProperty(window, "localStorage", { get() { throw new DOMException("no", "SecurityError"); } })],
  ["is not there", () => Object.defineProperty(window, "localStorage", { value: null })],
  ["is full", () => { Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); }; }],
]) {
  test(`where storage ${name}, that is said and the sheet works on`, async (t) => {
    const context = await device(t);
    await context.addInitScript(spoil);
    const page = await open(context, sheet);
    await tick_step(page, 1);
    assert.match(plain(await count(page)), /^Done: 1 of/);
    assert.match(await page.locator("#complaint").innerText(), /keeps nothing/);
    await page.locator("#take-back").click();
    assert.match(plain(await count(page)), /^Done: 0 of/);
    await page.locator("#desk summary").click();
    const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#save-record").click()]);
    assert.match(download.suggestedFilename(), /^heronmoor-lay_up-\d{4}-\d\d-\d\d\.json$/);
  });
}

test("what was kept and cannot be read is set aside, not written over", async (t) => {
  const context = await device(t);
  const page = await open(context, sheet);
  await tick(page, "step-3-1").check();
  const key = await page.evaluate(() => {
    const key = Object.keys(localStorage).find((each) => each.startsWith("curbstop-record") && !each.endsWith("undo"));
    localStorage.setItem(key, "{ torn");
    return key;
  });
  await page.reload();
  assert.match(plain(await page.locator("#complaint").innerText()), /cannot be read and was set aside: This is not a record/);
  await tick(page, "step-3-1").check();
  assert.equal(await page.evaluate((at) => localStorage.getItem(`${at} unreadable`), key), "{ torn");
});

test("two windows of one sheet do not write over each other", async (t) => {
  const context = await device(t);
  const [one, other] = [await open(context, sheet), await open(context, sheet)];
  await tick(one, "step-3-1").check();
  await other.waitForFunction(() => document.querySelector('[data-id="step-3-1"]').checked);
  await tick(other, "after-1").check();
  await one.waitForFunction(() => document.querySelector('[data-id="after-1"]').checked);
  assert.deepEqual(await ticked(one), ["step-3-1", "after-1"]);
});
