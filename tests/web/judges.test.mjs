// Documents of the samples and of the examples, judged by off-the-shelf validators.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import test from "node:test";

import Ajv2020 from "ajv/dist/2020.js";
import * as commonmark from "commonmark";
import { HtmlValidate, StaticConfigLoader } from "html-validate";

const { SAMPLES, CURBSTOP, PROJECT } = process.env;
const read = (...path) => readFileSync(join(...path), "utf8");
const samples = (ending) => readdirSync(SAMPLES).filter((name) => name.endsWith(ending));
const labels = JSON.parse(read(SAMPLES, "labels.json"));

function curbstop(args, status) {
  const done = spawnSync(CURBSTOP, args, { encoding: "utf8", maxBuffer: 1 << 28 });
  assert.equal(done.status, status, `curbstop ${args.join(" ")}: ${done.stderr}`);
  return done.stdout;
}

// Each example with its procedures, as `check` tells them.
const examples = readdirSync(join(PROJECT, "examples"), { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && entry.name.endsWith(".curb"))
  .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
  .sort()
  .flatMap((file) => {
    const done = spawnSync(CURBSTOP, ["check", "--as", "json", file], { encoding: "utf8", maxBuffer: 1 << 28 });
    const verdict = JSON.parse(done.stdout);
    return verdict.procedures.map(({ name, proved }) => ({ file, name, proved, verdict }));
  });
const proved = examples.filter(({ proved }) => proved);

test("there are examples to judge", () => {
  assert.ok(proved.length >= 2);
});

function html_judge(rules) {
  const config = { root: true, extends: ["html-validate:recommended", "html-validate:a11y"], rules };
  return new HtmlValidate(new StaticConfigLoader(config));
}

function assert_valid_html(judge, html, name) {
  const report = judge.validateStringSync(html, name);
  const messages = report.results.flatMap(({ messages }) => messages);
  assert.deepEqual(messages.map(({ line, ruleId, message }) => `${name}:${line} ${ruleId} ${message}`), []);
}

test("HTML sheets are valid", () => {
  const judge = html_judge({});
  assert_valid_html(judge, read(SAMPLES, "plain.html"), "plain.html");
  for (const { file, name } of proved) {
    assert_valid_html(judge, curbstop(["sheet", file, "--procedure", name, "-o", "-"], 0), `${file} ${name}`);
    assert_valid_html(judge, curbstop(["sheet", file, "--procedure", name, "--pocket", "-o", "-"], 0), `${file} ${name} pocket`);
  }
});

test("HTML sheets with hostile labels are valid", () => {
  // A label of 500 letters makes a long title: that is what its author asked for.
  const judge = html_judge({ "long-title": "off" });
  for (const name of samples(".html")) {
    assert_valid_html(judge, read(SAMPLES, name), name);
  }
});

// What a sheet may consist of. Anything else would have come out of a label.
const markdown_nodes = new Set([
  "document", "heading", "paragraph", "block_quote", "list", "item", "thematic_break",
  "text", "softbreak", "strong", "emph", "code",
]);

function markdown_content(markdown) {
  const kinds = new Map();
  let text = "";
  const walker = new commonmark.Parser().parse(markdown).walker();
  for (let event = walker.next(); event; event = walker.next()) {
    const { entering, node } = event;
    if (entering) {
      kinds.set(node.type, (kinds.get(node.type) ?? 0) + 1);
      text += node.type === "softbreak" ? "\n" : node.literal ?? "";
    } else if (["paragraph", "heading", "item"].includes(node.type)) {
      text += "\n";
    }
  }
  return { kinds, text };
}

test("Markdown sheets parse as what they mean", () => {
  const plain = markdown_content(read(SAMPLES, "plain.md"));
  for (const name of samples(".md")) {
    const { kinds, text } = markdown_content(read(SAMPLES, name));
    for (const kind of kinds.keys()) {
      assert.ok(markdown_nodes.has(kind), `${name} holds a ${kind}`);
    }
    assert.equal(kinds.get("heading"), plain.kinds.get("heading"), name);
    const label = labels[name.replace(/\.md$/, "")];
    if (label) {
      // What stands between two back-ticks is a code span: they are no letters of it.
      assert.ok(text.includes(label.replaceAll(/`([^`]+)`/g, "$1")), `${name} does not read as ${label}`);
    }
  }
  for (const { file, name } of proved) {
    const { kinds } = markdown_content(curbstop(["sheet", file, "--procedure", name, "--as", "markdown", "-o", "-"], 0));
    for (const kind of kinds.keys()) {
      assert.ok(markdown_nodes.has(kind), `${file} ${name} holds a ${kind}`);
    }
  }
});

// The published schemas let in members of later versions; ours may hold none that the schema does not tell of.
function closed(schema) {
  if (Array.isArray(schema)) {
    return schema.map(closed);
  }
  if (schema === null || typeof schema !== "object") {
    return schema;
  }
  const result = Object.fromEntries(Object.entries(schema).map(([key, value]) => [key, closed(value)]));
  if (result.type === "object" && result.properties && !("additionalProperties" in result)) {
    result.additionalProperties = false;
  }
  return result;
}

const schema = (name) => JSON.parse(read(PROJECT, "compiler", "output", "schema", `${name}.schema.json`));

for (const [name, from_examples] of [
  ["check", () => examples.map(({ verdict }) => verdict)],
  ["procedure", () => proved.map(({ file, name }) =>
    JSON.parse(curbstop(["sheet", file, "--procedure", name, "--as", "json", "-o", "-"], 0)))],
  ["trace", () => proved.flatMap(({ file, name }) => ["0", "1", "2"].map((step) =>
    JSON.parse(curbstop(["trace", file, "--procedure", name, "--after", step, "--as", "json"], 0))))],
]) {
  test(`JSON meets ${name}.schema.json, with nothing that it does not tell of`, () => {
    const open = new Ajv2020({ strict: true, allErrors: true }).compile(schema(name));
    const strict = new Ajv2020({ strict: true, allErrors: true }).compile({ ...closed(schema(name)), $id: `urn:closed:${name}` });
    const documents = [
      ...samples(`.${name}.json`).map((file) => JSON.parse(read(SAMPLES, file))),
      ...from_examples(),
    ];
    assert.ok(documents.length > 2);
    for (const document of documents) {
      assert.ok(open(document), JSON.stringify(open.errors?.slice(0, 3), null, 1));
      assert.ok(strict(document), JSON.stringify(strict.errors?.slice(0, 3), null, 1));
    }
  });
}

test("labels come back from JSON as they were written", () => {
  // Of the labels that one line can hold.
  for (const [name, label] of Object.entries(labels)) {
    const { system } = JSON.parse(read(SAMPLES, `${name}.procedure.json`));
    if (/^[\x20-\x7E]*$/.test(system.label) && system.label.trim() === system.label) {
      assert.equal(system.label, label);
    }
  }
});

test("references in JSON point into their arrays", () => {
  const arrays = {
    variable: "variables", whereabouts: "variables", dial: "variables", end: "variables", part: "parts", parent: "parts",
    zone: "zones", node: "nodes", from: "nodes", to: "nodes", chamber: "chambers", fluid: "fluids",
  };
  for (const { file, name } of proved) {
    const { system } = JSON.parse(curbstop(["sheet", file, "--procedure", name, "--as", "json", "-o", "-"], 0));
    const walk = (value, inside) => {
      for (const [key, member] of Object.entries(value)) {
        const array = inside === "outlets" && key === "end" ? "nodes" : arrays[key];
        if (typeof member === "number" && array) {
          assert.ok(member < system[array].length, `${file}: ${inside}.${key} = ${member}`);
        } else if (member && typeof member === "object") {
          walk(member, Array.isArray(value) ? inside : key);
        }
      }
    };
    walk(system, "system");
  }
});

test("the same input gives the same bytes", () => {
  for (const { file, name } of proved.slice(0, 4)) {
    for (const form of ["html", "markdown", "json"]) {
      const sheet = () => curbstop(["sheet", file, "--procedure", name, "--as", form, "-o", "-"], 0);
      assert.equal(sheet(), sheet());
    }
  }
});

test("a drawing can be made of every example, and of every zone of it that has plumbing", () => {
  const folder = mkdtempSync(join(tmpdir(), "curbstop-"));
  const drawn = (...args) => {
    curbstop(["draw", ...args, "-o", join(folder, "drawing.svg")], 0);
    const svg = read(folder, "drawing.svg");
    assert.match(svg, /^<svg [^]*<\/svg>\n$/);
    return svg;
  };
  try {
    for (const file of new Set(proved.map(({ file }) => file))) {
      const titles = new Set(drawn(file).match(/<title>[^<]*/g));
      const { status, stderr } = spawnSync(CURBSTOP, ["draw", file, "--zone", "nowhere_at_all"], { encoding: "utf8" });
      assert.equal(status, 2);
      const zones = /has no zone nowhere_at_all; it has: (.*)\n/.exec(stderr)[1].split(", ");
      const in_zones = new Set(zones.flatMap((zone) => drawn(file, "--zone", zone).match(/<title>[^<]*/g)));
      // All that is on the whole drawing, parts and pipes, is on that of some zone: but for its own title and the frames,
      // and what falls from one zone into another, which is said on both sides in other words.
      const left_out = [...titles].filter((title) => !in_zones.has(title));
      assert.ok(titles.size > 8 && left_out.length < zones.length + 6, left_out.join("\n"));
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
});
