// The sheets of the examples and a hostile one, printed on A4 and Letter.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import test, { after, before } from "node:test";

import { hostile } from "./hostile.mjs";
import { lines_of, marks_of, open_browser, papers, print } from "./printed.mjs";

const { CURBSTOP, PROJECT } = process.env;

function curbstop(...args) {
  const done = spawnSync(CURBSTOP, args, { encoding: "utf8", maxBuffer: 1 << 28 });
  assert.equal(done.status, 0, `curbstop ${args.join(" ")}: ${done.stderr}`);
  return done.stdout;
}
const sheet = (file, procedure, ...args) => curbstop("sheet", file, "--procedure", procedure, "-o", "-", ...args);

const examples = [
  ["first/larkfold.curb", "Larkfold"], ["boat/gribble.curb", "Gribble"], ["heronmoor/heronmoor.curb", "Heronmoor"],
].flatMap(([path, system]) => {
  const file = join(PROJECT, "examples", path);
  const verdict = JSON.parse(curbstop("check", "--as", "json", file));
  return verdict.procedures.map(({ name }) => ({ file, name, system }));
});

let browser;
before(async () => { browser = await open_browser(); });
after(() => browser?.close());

const unescaped = (text) =>
  text.replaceAll("&lt;", "<").replaceAll("&gt;", ">").replaceAll("&quot;", '"').replaceAll("&#39;", "'").replaceAll("&amp;", "&");

/// Every page is of the size asked for (the drawing's may lie), and has its head and foot.
function check_pages(printed, paper, version, system) {
  const [width, height] = papers[paper];
  for (const size of printed.sizes) {
    assert.ok(Math.abs(size[0] - width) < 2 && Math.abs(size[1] - height) < 2, `${paper}: a page of ${size}`);
  }
  assert.equal(printed.sizes.length, printed.pages);
  for (let page = 1; page <= printed.pages; ++page) {
    const lines = lines_of(printed, page);
    assert.match(lines.at(-1), new RegExp(`Page ${page} of ${printed.pages}$`), `page ${page}: ${lines.at(-1)}`);
    assert.ok(lines[0].endsWith(`Version ${version.slice(0, 12)}`), `page ${page}: ${lines[0]}`);
    assert.ok(lines[0].includes(system), `page ${page}: ${lines[0]}`);
  }
}

/// Same page, and same column: what is split between the columns of a page is split as well.
const together = (a, b, width) => a.page === b.page && (a.x < width / 2) === (b.x < width / 2);

function check_steps(printed, paper, long) {
  const marks = marks_of(printed);
  const [width] = papers[paper];
  assert.ok(printed.numbers.length > 0);
  assert.deepEqual(printed.numbers, printed.numbers.map((_, i) => i + 1), "steps are numbered from 1 without a gap");
  for (const number of printed.numbers) {
    const begin = marks.get(`QHEAD${number}Xbegin`) ?? [];
    const end = marks.get(`QSTEP${number}Xend`) ?? [];
    assert.equal(end.length, 1, `step ${number} ends ${end.length} times`);
    if (number === long?.number) {
      // The table's head is printed again in every column that the step goes on in; a mark is not.
      const heads = printed.words.filter(({ text }) => text.includes(long.title));
      const columns = new Set(heads.map((word) => `${word.page} ${word.x < width / 2 ? "left" : "right"}`));
      assert.ok(heads.length > 1 && columns.size === heads.length, `step ${number} is headed in ${[...columns]}`);
      assert.ok(together(heads[0], begin[0], width) && together(heads.at(-1), end[0], width),
        `step ${number} begins or ends where its heading is not`);
      continue;
    }
    assert.equal(begin.length, 1, `step ${number} is headed ${begin.length} times`);
    assert.ok(together(begin[0], end[0], width),
      `step ${number} is split: from page ${begin[0].page} to ${end[0].page} (${paper})`);
    // Its number is there to be read, right behind the mark.
    const near = printed.words.filter((word) => word.page === begin[0].page && Math.abs(word.y - begin[0].y) < 14 &&
      word.x >= begin[0].x - 4 && word.x < begin[0].x + 40);
    assert.ok(near.some(({ text }) => text.replace(/^Q.*begin/, "").replace(/[✓✗].*$/, "").endsWith(String(number))),
      `the number of step ${number} cannot be read: ${near.map(({ text }) => text)}`);
  }
}

function check_cautions(printed, paper) {
  const marks = marks_of(printed);
  const [width] = papers[paper];
  for (let pair = 1; pair <= printed.pairs; ++pair) {
    const [warn] = marks.get(`QWARN${pair}Xbegin`);
    const [warned] = marks.get(`QWARN${pair}Xend`);
    const [act] = marks.get(`QACT${pair}Xbegin`);
    assert.ok(together(warn, warned, width) && together(warned, act, width),
      `caution ${pair} is parted from its action: pages ${warn.page}, ${act.page} (${paper})`);
    assert.ok(warned.y <= act.y + 1, `caution ${pair} does not stand before its action (${paper})`);
  }
}

for (const paper of Object.keys(papers)) {
  test(`sheets of the examples on ${paper}`, async () => {
    let cautions = 0;
    for (const { file, name, system } of examples) {
      const html = sheet(file, name);
      const [, version] = /content version <code>([0-9a-f]{64})/.exec(html);
      const printed = await print(browser, html, paper);
      check_pages(printed, paper, version, system);
      check_steps(printed, paper);
      check_cautions(printed, paper);
      cautions += printed.pairs;
    }
    assert.ok(cautions > 20);
  });

  test(`pocket forms of the examples on ${paper}`, async () => {
    for (const { file, name, system } of examples) {
      const html = sheet(file, name, "--pocket");
      const [, version] = /content version <code>([0-9a-f]{12})/.exec(html);
      const printed = await print(browser, html, paper, { marks: false });
      check_pages(printed, paper, version, system);
      assert.equal(printed.pages, 1, `${name} on ${paper}`);
      // Every step once, and the cautions of the sheet in full.
      const full = sheet(file, name);
      const steps = [...full.matchAll(/id="step-(\d+)"/g)].map((match) => match[1]);
      assert.deepEqual([...html.matchAll(/<li value="(\d+)">/g)].map((match) => match[1]), steps);
      const text = printed.text.replaceAll(/\s/g, "");
      for (const number of steps) {
        assert.ok(printed.words.some((word) => word.text === number), `step ${number} cannot be read`);
      }
      for (const [, caution] of full.matchAll(/<\/p><p dir="auto">([^<]+)<\/p><\/div>/g)) {
        assert.ok(html.includes(caution), caution);
        assert.ok(text.includes(unescaped(unescaped(caution)).replaceAll(/\s/g, "")), `not in print: ${caution}`);
      }
    }
  });
}

test("the main lay-up fits into a booklet of 12 pages of A4, and 13 of Letter, which is shorter", async () => {
  const html = sheet(join(PROJECT, "examples", "heronmoor", "heronmoor.curb"), "lay_up");
  assert.ok((await print(browser, html, "A4")).pages <= 12);
  assert.ok((await print(browser, html, "Letter")).pages <= 13);
});

test("what is done has letters of 9 pt and boxes of 4 mm", async () => {
  const page = await browser.newPage();
  await page.emulateMedia({ media: "print" });
  await page.setContent(sheet(join(PROJECT, "examples", "heronmoor", "heronmoor.curb"), "lay_up"));
  const found = await page.evaluate(() => ({
    letters: Math.min(...[...document.querySelectorAll(".step .tick, .step h3, .step .see > p")].map((each) => parseFloat(getComputedStyle(each).fontSize))),
    boxes: Math.min(...[...document.querySelectorAll(".step input[type=checkbox]")].filter((box) => box.checkVisibility()).map((each) => each.getBoundingClientRect().width)),
  }));
  await page.close();
  assert.ok(found.letters >= 9 * 96 / 72 - 0.01, `${found.letters} px`);
  assert.ok(found.boxes >= 4 * 96 / 25.4 - 0.05, `${found.boxes} px`);
});

test("the pocket form has letters of 6.5 pt and boxes of 3 mm", async () => {
  for (const { file, name } of examples) {
    const page = await browser.newPage();
    await page.emulateMedia({ media: "print" });
    await page.setContent(sheet(file, name, "--pocket"));
    const found = await page.evaluate(() => ({
      letters: Math.min(...[...document.querySelectorAll("h1, p, li, span, b, i, em")].map((each) => parseFloat(getComputedStyle(each).fontSize))),
      boxes: Math.min(...[...document.querySelectorAll("input")].map((box) => box.getBoundingClientRect().width)),
    }));
    await page.close();
    assert.ok(found.letters >= 6.5 * 96 / 72 - 0.01, `${name}: ${found.letters} px`);
    assert.ok(found.boxes >= 3 * 96 / 25.4 - 0.05, `${name}: ${found.boxes} px`);
  }
});

test("what is cut out stands on a page of its own", async () => {
  const printed = await print(browser, sheet(join(PROJECT, "examples", "heronmoor", "heronmoor.curb"), "lay_up"), "A4");
  const texts = Array.from({ length: printed.pages }, (_, i) => lines_of(printed, i + 1).join(" "));
  const tags = texts.filter((text) => text.includes("Tags to cut out"));
  assert.equal(tags.length, 1);
  assert.match(tags[0], /Print this page once more by itself, on one side/);
  for (const kept of ["Record of use", "Next season", "What stands where", "How everything stands"]) {
    assert.ok(texts.some((text) => text.includes(kept)), kept);
    assert.ok(!tags[0].includes(kept), kept);
  }
});

test("what is done more than once has a box for each time, and what is waited for room for its times", async () => {
  const page = await browser.newPage();
  await page.emulateMedia({ media: "print" });
  await page.setContent(sheet(join(PROJECT, "examples", "heronmoor", "heronmoor.curb"), "lay_up"));
  const found = await page.evaluate(() => {
    const printed = (selector) => [...document.querySelectorAll(selector)].filter((node) => node.checkVisibility());
    return {
      rounds: printed(".rounds").map((line) =>
        [Number(/at most (\d+) times/.exec(line.parentElement.querySelector(".box-head").textContent)[1]), line.querySelectorAll(".square").length]),
      waits: printed('[data-wait]').map((line) => [Number(line.dataset.wait), line.querySelectorAll(".clock span").length]),
      bars: printed(".bars").length,
    };
  });
  await page.close();
  assert.ok(found.rounds.length > 0);
  for (const [most, boxes] of found.rounds) {
    assert.equal(boxes, most);
  }
  assert.ok(found.waits.some(([seconds]) => seconds >= 600));
  for (const [seconds, blanks] of found.waits) {
    assert.equal(blanks, seconds >= 600 ? 2 : 0);
  }
  assert.equal(found.bars, 1);
});

for (const paper of Object.keys(papers)) {
  test(`a hostile procedure on ${paper}`, async () => {
    const folder = mkdtempSync(join(tmpdir(), "curbstop-hostile-"));
    try {
      const file = join(folder, "hostile.curb");
      const { text, long, system } = hostile();
      writeFileSync(file, text);
      const html = sheet(file, "close_up");
      const [, version] = /content version <code>([0-9a-f]{64})/.exec(html);
      const printed = await print(browser, html, paper);
      check_pages(printed, paper, version, system);
      check_steps(printed, paper, long);
      check_cautions(printed, paper);
      // Nothing runs off the page.
      const [width, height] = papers[paper];
      for (const word of printed.words) {
        assert.ok(word.x >= 0 && word.right <= width + 1 && word.y >= 0 && word.bottom <= height + 1,
          `page ${word.page}: ${word.text} at ${word.x}, ${word.right}`);
      }
      const pocket = await print(browser, sheet(file, "close_up", "--pocket"), paper, { marks: false });
      check_pages(pocket, paper, version, system);
      for (const number of printed.numbers) {
        assert.ok(pocket.words.some((word) => word.text === String(number)), `step ${number} is not on the pocket form`);
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
}
