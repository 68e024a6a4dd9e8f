// Picking a variant: what is left on the page must be what its words say of that variant.
import assert from "node:assert/strict";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import test from "node:test";

import { count, device, folder, heronmoor, open, plain, read, said, unfold, write_sheet } from "./sheet.mjs";

const sheets = {
  lay_up: heronmoor(),
  recommission: write_sheet("examples/heronmoor/heronmoor.curb", "recommission"),
};

const choose = (page, option, state) =>
  page.locator(`[data-option="${option}"] input[value="${state}"]`).check();

const names = {
  outside_shower_fitted: "Outside shower", filter_fitted: "Drinking-water filter", macerator_fitted: "Macerator",
};

// Every condition that can be read on the page, as a test of what is known. Only words are used: what the script goes by
// is not looked at. "only with A and without B, or only with C", "if it comes to that": which may always be.
function may_apply(words, known) {
  return words.replace(/:$/, "").split(/, or (?=only )/i).some((alternative) =>
    alternative.replace(/^only /i, "").split(/ and /).every((part) => {
      const [, not, label] = part.match(/^with(out)? (.*)$/) ?? [];
      if (!label) {
        assert.equal(part, "if it comes to that");
        return true;
      }
      const name = Object.keys(names).find((each) => names[each] === label);
      assert.ok(name, `${label} is no option`);
      return known[name] === "unknown" || (known[name] === "has") === !not;
    }));
}

const conditions = (page) => page.evaluate(() =>
  [...document.querySelectorAll(".condition, .box.conditional > .box-head, .line.conditional > .box-head")]
    .map((node) => ({ words: node.textContent, shown: node.checkVisibility(), outer: node.closest(".box, .line.conditional, .step, li, tr").parentElement.checkVisibility() })));

const states = ["unknown", "has", "has_not"];
for (const [procedure, sheet] of Object.entries(sheets)) {
  test(`${procedure}: in each of the 27 states of knowing, just that is hidden which cannot apply`, async (t) => {
    const page = await open(await device(t), sheet);
    let hidden_ever = 0;
    for (const outside_shower_fitted of states) {
      for (const filter_fitted of states) {
        for (const macerator_fitted of states) {
          const known = { outside_shower_fitted, filter_fitted, macerator_fitted };
          for (const [name, state] of Object.entries(known)) {
            await choose(page, name, state);
          }
          for (const { words, shown, outer } of await conditions(page)) {
            const should = may_apply(words, known);
            // What may apply can still be inside of what does not.
            assert.ok(shown ? should : !should || !outer, `“${words}” is ${shown ? "shown" : "hidden"} with ${JSON.stringify(known)}`);
            hidden_ever += shown ? 0 : 1;
          }
        }
      }
    }
    assert.ok(hidden_ever > 50);
  });
}

test("what is hidden is counted, steps keep their numbers, and nothing is shown of an empty group", async (t) => {
  const page = await open(await device(t), sheets.lay_up);
  const before = await page.locator(".number").allInnerTexts();
  const [, all] = plain(await count(page)).match(/of (\d+)$/);
  for (const name of Object.keys(names)) {
    await choose(page, name, "has_not");
  }
  const shown = await page.evaluate(() => {
    const visible = (selector) => [...document.querySelectorAll(selector)].filter((node) => node.checkVisibility());
    return {
      numbers: visible(".number").map((node) => node.innerText),
      empty: [...visible(".box, .stage"), ...visible(".card")].filter((node) =>
        ![...node.querySelectorAll(".step, li, p:not(.box-head), tr")].some((each) => each.checkVisibility())).length,
      lists: visible("ul").filter((list) => list.children.length && ![...list.children].some((each) => each.checkVisibility())).length,
      steps: document.querySelectorAll(".step").length - visible(".step").length,
      counted: [...document.querySelectorAll(".step")].filter((step) => !step.checkVisibility() && !step.closest(".in-case")).length,
      rows: document.querySelectorAll(".standing tbody tr").length - visible(".standing tbody tr").length,
    };
  });
  assert.ok(shown.steps > 0 && shown.rows > 0);
  assert.equal(shown.empty, 0);
  assert.equal(shown.lists, 0);
  assert.ok(shown.numbers.every((number) => before.includes(number)));
  const words = plain(await page.locator(".picker .hidden-count").innerText());
  assert.match(words, new RegExp(`Steps: ${shown.steps}\\. .*Rows of tables: ${shown.rows}\\.`));
  assert.equal(plain(await page.locator('[data-hidden-count="if-any"]').innerText()), words);
  assert.equal(plain(await said(page)), words.match(/^.* Steps: \d+\./)[0]); // the bar has two lines
  const [, fewer] = plain(await count(page)).match(/of (\d+)$/);
  assert.equal(Number(all) - Number(fewer), shown.counted);

  await page.reload();
  await unfold(page);
  assert.equal(plain(await page.locator(".picker .hidden-count").innerText()), words);
  for (let i = 0; i < 3; ++i) {
    await page.locator("#take-back").click();
  }
  assert.equal(await page.locator(".picker .hidden-count").innerText(), "Nothing is hidden.");
  assert.deepEqual(await page.locator(".number:visible").allInnerTexts(), before);
});

test("a step that is left is told where it is done, and what it is held back by", async (t) => {
  for (const sheet of Object.values(sheets)) {
    const page = await open(await device(t), sheet);
    // Where each step is done and what it is held back by, when all of them are there to be read.
    const told = () => page.evaluate(() => {
      let place = null;
      const held = new Map(); // by source: the words that tell it in full, last
      return [...document.querySelectorAll(".go, .step")].filter((node) => node.checkVisibility()).flatMap((node) => {
        if (node.matches(".go")) {
          place = node.querySelector("bdi").textContent;
          return [];
        }
        const here = place;
        place = [...node.querySelectorAll(".zones bdi")].pop()?.textContent ?? place; // of several, it ends at the last
        const by = [...node.querySelectorAll(".held")].filter((line) => line.checkVisibility()).map((line) => {
          const source = line.querySelector("bdi").textContent;
          const link = line.querySelector("a");
          if (link) {
            const other = document.querySelector(link.hash);
            const full = other.checkVisibility() ? held.get(source) : "tells of a step that is hidden";
            return full ?? "told nowhere before";
          }
          held.set(source, line.textContent);
          return line.textContent;
        });
        return [[node.id, { place: here, by }]];
      });
    });
    const all = new Map(await told());
    for (const name of Object.keys(names)) {
      await choose(page, name, "has_not");
    }
    const left = new Map(await told());
    assert.ok(left.size < all.size);
    for (const [id, { place, by }] of left) {
      assert.equal(place, all.get(id).place, id);
      assert.deepEqual(by, all.get(id).by, id);
    }
  }
});

test("what a hidden step said of the place is said by the next", async (t) => {
  // A sheet in which all lines of three steps hang on an option: step 1, one to which one goes and stays, and one to which
  // one goes and then goes on.
  const html = read(sheets.lay_up);
  const gone_to = (then) => html.match(new RegExp(
    `<p class="go">[^\n]*</p>\n<article class="step[^"]*" id="step-(\\d+)">(?:(?!</article>)[^])*</article>\n${then}`))[1];
  const going = gone_to("<article");
  const passing = gone_to('<p class="go"');
  const only_with_shower = (text, step) => text.replace(new RegExp(`<article class="step[^"]*" id="step-${step}">(?:(?!</article>)[^])*`),
    (article) => article.replace(/<li class="line [a-z-]+"/g, '$& data-when="0"'));
  const path = join(folder, "hanging.html");
  writeFileSync(path, [1, going, passing].reduce(only_with_shower, html));

  const page = await open(await device(t), path);
  const go_before = (step) => page.evaluate((step) => {
    const node = document.getElementById(`step-${step}`);
    let place = null;
    for (const each of document.querySelectorAll(".go, .step")) {
      if (each === node) {
        return place;
      }
      place = each.matches(".go") ? (each.checkVisibility() ? each.textContent : place) : each.checkVisibility() ? null : place;
    }
  }, step);
  const place = await go_before(going);
  assert.match(place, /^Go to /);
  assert.equal(await go_before(Number(going) + 1), null);

  await choose(page, "outside_shower_fitted", "has_not");
  assert.equal(await page.locator("#step-1").isVisible(), false);
  assert.equal(await page.locator(`#step-${going}`).isVisible(), false);
  assert.equal(await page.locator(`#step-${passing}`).isVisible(), false);
  assert.equal(await go_before(Number(going) + 1), place);
  // Nobody is sent to two places at once.
  const order = await page.evaluate(() => [...document.querySelectorAll(".go, .step")].filter((node) => node.checkVisibility())
    .map((node) => node.className[0]).join(""));
  assert.doesNotMatch(order, /gg/);
  await choose(page, "outside_shower_fitted", "has");
  assert.equal(await go_before(Number(going) + 1), null);
});

test("on paper the options that were said are ticked, the count is printed, and the unit that was chosen", async (t) => {
  const page = await open(await device(t), sheets.lay_up);
  await choose(page, "filter_fitted", "has");
  await choose(page, "macerator_fitted", "has_not");
  const filled = page.locator(".step .field:has(select)").first();
  const empty = page.locator(".step .field:has(select)").nth(1);
  await filled.locator("select").selectOption("[degF]");
  await filled.locator("input[data-id]").fill("-17");
  await page.emulateMedia({ media: "print" });
  assert.equal(await filled.locator("select").isVisible(), true);
  assert.equal(await filled.locator(".unit").isVisible(), false);
  assert.equal(await empty.locator("select").isVisible(), false);
  assert.equal(await empty.locator(".unit").isVisible(), true);
  assert.equal(await page.locator(".picker").isVisible(), false);
  assert.equal(await page.locator("#bar").isVisible(), false);
  const list = page.locator(".yours .without-script");
  assert.match(await list.innerText(), /Macerator \(not there\)/);
  assert.deepEqual(await page.locator("[data-option-tick]").evaluateAll((boxes) => boxes.map(({ checked }) => checked)), [false, true, false]);
  assert.ok(await page.locator('[data-hidden-count="if-any"]').isVisible());
});

test("a step whose lines hang on what is not said asks for it there, and no more once it is said", async (t) => {
  const page = await open(await device(t), heronmoor());
  const asked = page.locator(".unsaid");
  const before = await asked.count();
  assert.ok(before > 0);
  const step = page.locator(".step:has(.unsaid)").first();
  assert.ok(await step.locator(".line[data-when]").count() > 0);
  const name = await asked.first().evaluate((box) => box.dataset.options.split(" ")[0]);
  const id = await step.getAttribute("id");
  await asked.first().locator("button").first().click();
  assert.equal(await page.locator(`[data-option="${name}"] input[value="has"]`).isChecked(), true);
  assert.equal(await page.evaluate(() => document.activeElement.closest(".step")?.id), id); // not lost with its button
  assert.equal(await page.locator(`.unsaid[data-options~="${name}"]`).count(), 0);
  await page.locator("#take-back").click();
  assert.equal(await asked.count(), before);
  await page.emulateMedia({ media: "print" });
  assert.equal(await asked.first().isVisible(), false);
});

test("what a pipe that is not there led to goes with it from the drawings", async (t) => {
  const page = await open(await device(t), sheets.lay_up);
  const loose = () => page.evaluate(() => {
    const shown = (node) => getComputedStyle(node).display !== "none";
    return [...document.querySelectorAll(".drawing g[data-fitted]")].filter((node) => node.querySelector("circle") && shown(node)).length;
  });
  const before = await loose();
  assert.ok(before > 0);
  for (const option of Object.keys(names)) {
    await choose(page, option, "has_not");
  }
  assert.ok(await loose() < before);
});
