// Prints a sheet as a browser does and reads back what stands where on which page.
//
// What belongs together is found by marks: before it is printed, the page gets a tiny word at the start and at the end
// of each step, caution and action. They are out of the flow, so they move nothing; the words that poppler finds at
// their places tell page and column. Without JavaScript on the page, for there is none: it is the tester's.
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { chromium } from "playwright-core";

// CSS Paged Media and ISO 216, ASME Y14.1: the sizes in points that pdfinfo tells.
export const papers = { A4: [595, 842], Letter: [612, 792] };

export async function open_browser() {
  // A sandbox needs rights that a container may not have; what is opened is our own.
  return chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });
}

/// What is put on the page before it is printed; runs in the browser.
function put_marks() {
  const mark = (parent, before, name) => {
    const word = document.createElement("span");
    word.textContent = name;
    word.style.cssText = "position:absolute;font:1px/1px monospace;color:#000;white-space:pre";
    parent.insertBefore(word, before);
  };
  const wrap = (element, name) => {
    mark(element, element.firstChild, `${name}begin`);
    mark(element, null, `${name}end`);
  };
  const steps = [...document.querySelectorAll(".step")];
  for (const step of steps) {
    const number = step.id.replace("step-", "");
    wrap(step.querySelector("h3"), `QHEAD${number}X`);
    mark(step, null, `QSTEP${number}Xend`);
  }
  let pairs = 0;
  for (const signal of document.querySelectorAll(".signal")) {
    // The action is the next thing to tick or the heading of what is held.
    const line = signal.closest(".line");
    const action = line.querySelector(".tick, .box-head");
    if (action) {
      pairs += 1;
      wrap(signal, `QWARN${pairs}X`);
      mark(action, action.firstChild, `QACT${pairs}Xbegin`);
    }
  }
  return { numbers: steps.map((step) => Number(step.id.replace("step-", ""))), pairs };
}

/// The words of a PDF with their page and box, by `pdftotext -bbox`.
function words_of(pdf) {
  const xml = execFileSync("pdftotext", ["-bbox", pdf, "-"], { encoding: "utf8", maxBuffer: 1 << 28 });
  const words = [];
  let page = 0;
  for (const match of xml.matchAll(/<page |<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)<\/word>/g)) {
    if (match[0] === "<page ") {
      page += 1;
    } else {
      words.push({ page, x: +match[1], y: +match[2], right: +match[3], bottom: +match[4], text: match[5] });
    }
  }
  return words;
}

export async function print(browser, html, paper, { marks = true } = {}) {
  const folder = mkdtempSync(join(tmpdir(), "curbstop-paper-"));
  const page = await browser.newPage();
  try {
    const file = join(folder, "sheet.html");
    writeFileSync(file, html);
    await page.goto(`file://${file}`);
    const { numbers, pairs } = marks ? await page.evaluate(put_marks) : { numbers: [], pairs: 0 };
    const pdf = join(folder, "sheet.pdf");
    await page.pdf({ path: pdf, format: paper, preferCSSPageSize: true });
    const info = execFileSync("pdfinfo", ["-f", "1", "-l", "9999", pdf], { encoding: "utf8" });
    const sizes = [...info.matchAll(/size: +([\d.]+) x ([\d.]+) pts/g)].map((match) => [+match[1], +match[2]]);
    // What is written in columns, in the order of the page's text.
    const text = execFileSync("pdftotext", ["-raw", pdf, "-"], { encoding: "utf8", maxBuffer: 1 << 28 });
    return { text, pages: Number(/Pages: +(\d+)/.exec(info)[1]), sizes, words: words_of(pdf), numbers, pairs };
  } finally {
    await page.close();
    rmSync(folder, { recursive: true });
  }
}

/// Where marks stand: name -> places.
export function marks_of({ words }) {
  const found = new Map();
  for (const word of words) {
    for (const [name] of word.text.matchAll(/Q(?:HEAD|STEP|WARN|ACT)\d+X(?:begin|end)/g)) {
      found.set(name, [...(found.get(name) ?? []), word]);
    }
  }
  return found;
}

/// The words of a page in lines, top to bottom.
export function lines_of({ words }, page) {
  const lines = [];
  for (const word of words.filter((each) => each.page === page)) {
    const line = lines.find((each) => Math.abs(each.bottom - word.bottom) < 2);
    if (line) {
      line.words.push(word);
    } else {
      lines.push({ bottom: word.bottom, words: [word] });
    }
  }
  return lines
    .sort((a, b) => a.bottom - b.bottom)
    .map(({ words: all }) => all.sort((a, b) => a.x - b.x).map(({ text }) => text).join(" "));
}
