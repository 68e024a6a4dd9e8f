// The sheet in its languages: numbers, lists, plurals and dates against Unicode CLDR, as node's Intl has it (ICU); what
// is left of the English sheet in the others; how wide the sheets become on a narrow screen, in a browser.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import test from "node:test";

const { SAMPLES, CURBSTOP, PROJECT } = process.env;
const said = JSON.parse(readFileSync(join(SAMPLES, "locales.json"), "utf8"));
// Our English writes as British English does: "a, b and c".
const tag = (language) => (language === "en" ? "en-GB" : language);
// CLDR parts a number from its unit by one no-break space or the other, and English by a plain one.
const one_space = (text) => text.replace(/[\u00A0\u202F ]/g, " ");
const hut = join(PROJECT, "examples", "languages", "larkfold.curb");
const procedures = ["close_up", "open_up"];

function sheet(language, procedure, form, ...more) {
  const words = ["sheet", hut, "--language", language, "--procedure", procedure, "--as", form, "-o", "-", ...more];
  const done = spawnSync(CURBSTOP, words, { encoding: "utf8", maxBuffer: 1 << 28 });
  assert.equal(done.status, 0, done.stderr);
  return done.stdout;
}

test("there are four languages, and this node knows all of them", () => {
  assert.deepEqual(Object.keys(said).sort(), ["de", "en", "es", "fr"]);
  for (const language of Object.keys(said)) {
    assert.deepEqual(Intl.NumberFormat.supportedLocalesOf([tag(language)]), [tag(language)]);
  }
});

test("numbers have the signs of the language", () => {
  for (const [language, { numbers }] of Object.entries(said)) {
    assert.ok(Object.keys(numbers).length > 10);
    for (const [digits, written] of Object.entries(numbers)) {
      const after_point = (digits.split(".")[1] ?? "").length;
      const expected = new Intl.NumberFormat(tag(language), {
        minimumFractionDigits: after_point, maximumFractionDigits: after_point,
      }).format(Number(digits));
      assert.equal(written, expected, `${language} ${digits}`);
    }
  }
});

test("units stand behind a space that does not break", () => {
  const unit = (language, name, number = 12.5) =>
    new Intl.NumberFormat(tag(language), { style: "unit", unit: name, unitDisplay: "short" }).format(number);
  for (const language of ["fr", "de", "es"]) {
    const { metres, percent, celsius, day } = said[language];
    for (const text of [metres, percent, celsius]) {
      assert.match(text, /^12,5[\u00A0\u202F][^ ]/, `${language} ${text}`);
    }
    assert.equal(one_space(metres), one_space(unit(language, "meter")));
    assert.equal(one_space(percent), one_space(unit(language, "percent")));
    assert.equal(one_space(celsius), one_space(unit(language, "celsius")));
    // For days CLDR has a word in German where we keep the symbol of the SI brochure (table 8).
    if (language !== "de") {
      assert.equal(one_space(day), one_space(unit(language, "day", 3)));
    }
  }
});

test("plural categories are those of CLDR", () => {
  for (const [language, { plurals }] of Object.entries(said)) {
    const rules = new Intl.PluralRules(tag(language));
    for (const [count, category] of Object.entries(plurals)) {
      assert.equal(category, rules.select(Number(count)), `${language} ${count}`);
    }
  }
});

test("lists are joined as CLDR joins them", () => {
  for (const [language, { all_of, one_of }] of Object.entries(said)) {
    for (const [type, lists] of [["conjunction", all_of], ["disjunction", one_of]]) {
      const format = new Intl.ListFormat(tag(language), { type });
      for (const { items, written } of lists) {
        assert.equal(written, format.format(items), `${language} ${type}`);
      }
    }
  }
});

test("the field for the date asks for it in the order of the language", () => {
  const letters = { fr: { day: "JJ", month: "MM", year: "AAAA" }, de: { day: "TT", month: "MM", year: "JJJJ" },
    es: { day: "DD", month: "MM", year: "AAAA" } };
  for (const [language, letter] of Object.entries(letters)) {
    const format = new Intl.DateTimeFormat(language, { day: "2-digit", month: "2-digit", year: "numeric" });
    const order = format.formatToParts(new Date(2020, 10, 30)).map(({ type, value }) => letter[type] ?? value).join("");
    assert.ok(sheet(language, "close_up", "markdown").includes(`(${order})`), `${language} ${order}`);
  }
});

test("no line of the English sheet is left in another language", () => {
  // Names, digits and drawing characters are the same everywhere; and "Name" is German too.
  const same = new Set(["  - Name: \\_\\_\\_\\_\\_\\_\\_\\_", "| --- | --- | --- |", "| --- | --- | --- | --- | --- |", "---"]);
  const english = ["english", "english_around", "english_pictures", "english_screen"]
    .map((name) => readFileSync(join(PROJECT, `compiler/output/catalogue/${name}.def`), "utf8")).join("\n");
  const pieces = [...english.matchAll(/"((?:[^"\\]|\\.)*)"/g)]
    .flatMap(([, sentence]) => sentence.split(/\{\w+\}/))
    .filter((piece) => piece.trim().length >= 14);
  assert.ok(pieces.length > 80);
  for (const procedure of procedures) {
    const lines = new Set(sheet("en", procedure, "markdown").split("\n").filter((line) => /\p{L}{2}/u.test(line)));
    for (const language of ["fr", "de", "es"]) {
      const other = sheet(language, procedure, "markdown");
      assert.deepEqual(other.split("\n").filter((line) => lines.has(line) && !same.has(line)), [], language);
      // The script, which all languages share, has no words.
      const page = sheet(language, procedure, "html").replace(/<(script|style)\b.*?<\/\1>/gs, "");
      for (const form of [other, page, sheet(language, procedure, "html", "--pocket").replace(/<style>.*?<\/style>/s, "")]) {
        assert.deepEqual(pieces.filter((piece) => form.includes(piece)), [], language);
      }
    }
  }
});

// All that is read off pictures and drawings, or aloud in their place, but for letters and numbers that stand alone.
function words_of_pictures(html) {
  const states = /<script type="application\/json" id="drawing-states">(.*?)<\/script>/s.exec(html)?.[1];
  const { texts, captions } = states ? JSON.parse(states) : { texts: [], captions: [] };
  const page = html.slice(html.indexOf("<body>") + 1); // without the title of the document
  const of = (pattern) => [...page.matchAll(pattern)].map((found) => found[1]);
  const written = [...of(/<text[^>]*>([^<]+)<\/text>/g), ...of(/<title>([^<]+)<\/title>/g),
    ...of(/<svg[^>]* aria-label="([^"]+)"/g), ...of(/<svg class="pic" aria-hidden[^\n]*<\/svg> ([^<\n]+)<\/li>/g),
    ...of(/<div class="fold (?:picture-signs|drawing)">\n<div class="fold-head"><h2>([^<]+)/g), ...of(/<p class="slides">([^<]+)/g),
    ...of(/<li><b>[A-Za-z0-9]+<\/b> ([^<]+)<\/li>/g)];
  return [...written, ...texts, ...captions].filter((text) => /\p{L}{2}/u.test(text));
}

test("nothing that English pictures and drawings say is left in another language", () => {
  const same = new Set(["Air"]); // is French, too
  for (const procedure of procedures) {
    const english = new Set(words_of_pictures(sheet("en", procedure, "html")));
    assert.ok(english.size > 30, "the sheet has pictures and drawings");
    for (const sign of ["Solid disc: shut, nothing passes.", "Slide the drawings sideways to see all of them.", "Signs on the pictures", "The system", "A: to Room: Kitchen tap", "Overview of the places",
      "Copper 15 x 1 mm, 4.9 m (16.1 ft)", "Kitchen tap – Kitchen sink"]) {
      assert.ok(english.has(sign), sign);
    }
    for (const language of ["fr", "de", "es"]) {
      const other = words_of_pictures(sheet(language, procedure, "html"));
      assert.ok(other.length > 30);
      assert.deepEqual(other.filter((text) => english.has(text) && !same.has(text)), [], `${language} ${procedure}`);
    }
  }
});

test("drawings of the whole system and of a zone are in the language that is asked for, and say so", () => {
  const draw = (language, ...more) => {
    const done = spawnSync(CURBSTOP, ["draw", hut, "--language", language, ...more, "-o", "-"], { encoding: "utf8" });
    assert.equal(done.status, 0, done.stderr);
    assert.match(done.stdout, new RegExp(`<svg [^>]*xml:lang="${language}"`));
    return words_of_pictures(done.stdout);
  };
  for (const more of [[], ["--procedure", "open_up", "--after", "4"], ["--zone", "room"]]) {
    const english = new Set(draw("en", ...more));
    assert.ok(english.size > (more.includes("--zone") ? 4 : 8));
    assert.equal([...english].some((text) => text.endsWith(": may be under pressure")), more.includes("--after"));
    for (const language of ["fr", "de", "es"]) {
      assert.deepEqual(draw(language, ...more).filter((text) => english.has(text)), [], language);
    }
  }
});

test("HTML says which language it is in, and marks what is in another", () => {
  for (const language of ["en", "fr", "de", "es"]) {
    const html = sheet(language, "close_up", "html");
    assert.match(html, new RegExp(`<html lang="${language}">`));
    assert.ok(!/ lang="/.test(html.replace("<html lang=", "<html ")), "all of this hut is translated");
  }
  const boat = join(PROJECT, "examples", "boat", "gribble.curb");
  const done = spawnSync(CURBSTOP, ["sheet", boat, "--language", "de", "--procedure", "lay_up", "-o", "-"],
    { encoding: "utf8", maxBuffer: 1 << 28 });
  assert.equal(done.status, 0, done.stderr);
  assert.match(done.stdout, /<html lang="de">/);
  assert.match(done.stdout, /<bdi lang="en">/);
});

const chromium = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"].find(existsSync);

test("nothing is wider than a screen of 360 px", { skip: chromium ? false : "no browser is installed" }, () => {
  const folder = mkdtempSync(join(tmpdir(), "curbstop-wide-"));
  try {
    for (const language of ["fr", "de", "es"]) {
      for (const procedure of procedures) {
        // A frame as wide as the screen; its policy would not let the page be asked how wide it is.
        const html = sheet(language, procedure, "html").replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, "");
        const page = `<!DOCTYPE html><title>waiting</title><iframe width="360" height="800" style="border:0"></iframe>
<script>const frame = document.querySelector("iframe");
frame.onload = () => { const page = frame.contentDocument.documentElement;
  const wide = [...page.querySelectorAll("body *")].filter((each) => !each.closest(".scroll") &&
    each.getBoundingClientRect().right > 361).map((each) => each.outerHTML.slice(0, 80));
  document.title = JSON.stringify({ width: page.scrollWidth, wide }); };
frame.srcdoc = ${JSON.stringify(html).replace(/</g, "\\u003C")};</script>`;
        const file = join(folder, `${language}-${procedure}.html`);
        writeFileSync(file, page);
        const done = spawnSync(chromium, ["--headless", "--no-sandbox", "--disable-gpu", `--user-data-dir=${folder}/profile`,
          "--virtual-time-budget=5000", "--dump-dom", `file://${file}`], { encoding: "utf8", maxBuffer: 1 << 28, timeout: 60000 });
        const title = /<title>(.*?)<\/title>/.exec(done.stdout)?.[1].replaceAll("&lt;", "<").replaceAll("&gt;", ">")
          .replaceAll("&quot;", '"').replaceAll("&amp;", "&");
        assert.ok(title?.startsWith("{"), done.stderr.slice(0, 400));
        const { width, wide } = JSON.parse(title);
        assert.deepEqual(wide, [], `${language} ${procedure}`);
        assert.ok(width <= 360 && width > 100, `${language} ${procedure}: ${width}`);
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
