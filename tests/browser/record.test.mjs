// The record to a file and back, and files that are none. The schema is judged by ajv (JSON Schema draft 2020-12).
import assert from "node:assert/strict";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import test from "node:test";

import Ajv2020 from "ajv/dist/2020.js";

import { device, filled, folder, heronmoor, open, plain, read, tick, ticked, write_sheet } from "./sheet.mjs";

const sheet = heronmoor();
const valid = new Ajv2020({ strict: true, allErrors: true })
  .compile(JSON.parse(read(process.env.PROJECT, "compiler", "output", "schema", "record.schema.json")));

async function desk(page) {
  await page.locator("#desk").evaluate((node) => { node.open = true; });
}
async function save(page) {
  await desk(page);
  const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#save-record").click()]);
  return JSON.parse(read(await download.path()));
}
async function choose_file(page, text, name = "record.json") {
  await desk(page);
  const path = join(folder, name);
  writeFileSync(path, text);
  await page.locator("#open-record").setInputFiles(path);
  await page.waitForFunction(() => document.querySelector("#open-record").value === "");
}
const report = async (page) => plain(await page.locator("#report").innerText());

async function fill_in(page) {
  await tick(page, "step-3-1").check();
  await tick(page, "after-2").check();
  await tick(page, "wear-1").check();
  await tick(page, "done-by").fill("Robin");
  const field = page.locator('.step .field:has(select) input').first();
  await field.fill("-27,5");
  await page.locator('[data-option="filter_fitted"] input[value="has_not"]').check();
  return field.getAttribute("data-id");
}
async function kept(page) {
  return { ticks: await ticked(page), fields: await filled(page),
    options: await page.locator(".picker input:checked").evaluateAll((all) => all.map(({ value }) => value)) };
}

test("a record goes to a file, meets its schema, and comes back on another device", async (t) => {
  const page = await open(await device(t), sheet);
  assert.ok(valid(await save(page)), JSON.stringify(valid.errors));
  const field = await fill_in(page);
  const record = await save(page);
  assert.ok(valid(record), JSON.stringify(valid.errors));
  assert.equal(record.system.name, "heronmoor");
  assert.match(record.content_version, /^[0-9a-f]{64}$/);
  assert.deepEqual(record.ticks.map(({ id }) => id), ["wear-1", "step-3-1", "after-2"]);
  assert.deepEqual(record.fields.map(({ id, value, unit }) => [id, value, unit]),
    [[field, "-27,5", "Cel"], ["done-by", "Robin", undefined]]);
  assert.equal(record.options.find(({ name }) => name === "filter_fitted").state, "has_not");
  // The record of use at the end says it again, at the step that it was filled in at.
  const step = /^step-(\d+)/.exec(field)[1];
  const said_again = page.locator(`.records tr[data-of-step="${step}"] input`).first();
  assert.match(await said_again.inputValue(), /^-27,5 °C$/);
  assert.equal(await said_again.getAttribute("readonly"), "");
  assert.ok(Math.abs(Date.parse(record.saved) - Date.now()) < 60000);

  const other = await open(await device(t), sheet);
  await choose_file(other, JSON.stringify(record));
  assert.match(await report(other), /ticks 3, fields 2, options 1/);
  assert.deepEqual(await kept(other), await kept(page));
  const again = await save(other);
  assert.deepEqual({ ...again, saved: null }, { ...record, saved: null });
  await other.locator("#take-back").click(); // all of it at once
  assert.deepEqual(await ticked(other), []);
});

test("adding a record loses nothing of what is there", async (t) => {
  const one = await open(await device(t), sheet);
  await fill_in(one);
  const record = await save(one);
  const page = await open(await device(t), sheet);
  await tick(page, "step-3-2").check();
  await tick(page, "done-by").fill("Sam");
  await tick(page, "done-on").fill("31 October");
  await page.locator('[data-option="filter_fitted"] input[value="has"]').check();
  await choose_file(page, JSON.stringify(record));
  const now = await kept(page);
  assert.deepEqual(now.ticks, ["wear-1", "step-3-1", "step-3-2", "after-2"]);
  assert.equal(now.fields["done-by"], "Sam");
  assert.equal(now.fields["done-on"], "31 October");
  assert.match(await report(page), /Kept as it is here, though the record says otherwise: Drinking-water filter; By/);
  assert.equal(now.options[1], "has");
});

// Each spoils a good record in one way; the message must name what is wrong.
const broken = [
  ["cut short", (text) => text.slice(0, 300), /not a record of a sheet/],
  ["empty", () => "", /not a record of a sheet/],
  ["not JSON at all", () => "\u0000\u0001PNG", /not a record of a sheet/],
  ["a list", () => "[]", /not a record of a sheet/],
  ["null", () => "null", /not a record of a sheet/],
  ["another format", edit((r) => { r.format = "curbstop-check"; }), /not a record of a sheet/],
  ["no version", edit((r) => { delete r.version; }), /version is missing/],
  ["a later version", edit((r) => { r.version = 2; }), /version 2 of the record, and this sheet reads version 1/],
  ["a version in words", edit((r) => { r.version = "1"; }), /version is not a whole number/],
  ["another system", edit((r) => { r.system = { name: "gribble", label: "Gribble" }; }), /system Gribble; this sheet is of Heronmoor/],
  ["another procedure", edit((r) => { r.procedure = { name: "x", label: "Y" }; }), /procedure Y; this sheet is of Lay up/],
  ["a system without label", edit((r) => { delete r.system.label; }), /system\.label is missing/],
  ["a procedure that is a text", edit((r) => { r.procedure = "lay_up"; }), /procedure is not an object/],
  ["no content version", edit((r) => { delete r.content_version; }), /content_version is missing/],
  ["no date", edit((r) => { r.saved = "yesterday"; }), /saved is not a date/],
  ["a day that is none", edit((r) => { r.saved = "2025-13-45T00:00:00Z"; }), /saved is not a date/],
  ["ticks that are no list", edit((r) => { r.ticks = {}; }), /ticks is not a list/],
  ["no ticks", edit((r) => { delete r.ticks; }), /ticks is missing/],
  ["a tick that is a number", edit((r) => { r.ticks[1] = 7; }), /ticks\[1\] is not an object/],
  ["a tick without id", edit((r) => { delete r.ticks[1].id; }), /ticks\[1\]\.id is missing/],
  ["a tick that is not there", edit((r) => { r.ticks[0].id = "step-999-1"; }), /ticks\[0\]\.id names step-999-1, which this sheet does not have/],
  ["a tick of a field", edit((r) => { r.ticks[0].id = "done-by"; }), /ticks\[0\]\.id names done-by/],
  ["a tick of a built-in name", edit((r) => { r.ticks[0].id = "__proto__"; }), /ticks\[0\]\.id names __proto__/],
  ["a tick twice", edit((r) => { r.ticks[1].id = r.ticks[0].id; }), /ticks\[1\]\.id names wear-1 a second time/],
  ["a tick without date", edit((r) => { delete r.ticks[2].at; }), /ticks\[2\]\.at is missing/],
  ["a field with a number", edit((r) => { r.fields[0].value = -27; }), /fields\[0\]\.value is not a text/],
  ["a field that is empty", edit((r) => { r.fields[0].value = ""; }), /fields\[0\]\.value is empty/],
  ["a field not measured, with a value", edit((r) => { r.fields[0].not_measured = true; }), /fields\[0\]\.not_measured is not true, or stands beside a value/],
  ["a field not quite measured", edit((r) => { delete r.fields[0].value; delete r.fields[0].unit; r.fields[0].not_measured = false; }), /fields\[0\]\.not_measured is not true/],
  ["a field neither measured nor not", edit((r) => { delete r.fields[0].value; }), /fields\[0\]\.value is missing/],
  ["words not measured", edit((r) => { r.fields[1] = { ...r.fields[1], value: undefined, not_measured: true }; }), /fields\[1\]\.not_measured/],
  ["a field with another's unit", edit((r) => { r.fields[0].unit = "bar"; }), /fields\[0\]\.unit is “bar”/],
  ["a field without its unit", edit((r) => { delete r.fields[0].unit; }), /fields\[0\]\.unit/],
  ["an option in doubt", edit((r) => { r.options[0].state = "perhaps"; }), /options\[0\]\.state is not one of/],
  ["an option that is not there", edit((r) => { r.options[0].name = "sauna"; }), /options\[0\]\.name names sauna/],
  ["too large", (text) => text + " ".repeat(6e6), /larger than 5 MB/],
];
function edit(change) {
  return (text) => {
    const record = JSON.parse(text);
    change(record);
    return JSON.stringify(record);
  };
}

test("a day is kept, goes to a file and comes back, and what is no day is refused", async (t) => {
  const page = await open(await device(t), sheet);
  const field = page.locator('.step input[type="date"]').first();
  const id = await field.getAttribute("data-id");
  await field.fill("2025-10-31");
  await page.reload();
  assert.equal(await field.inputValue(), "2025-10-31");
  const record = await save(page);
  assert.ok(valid(record), JSON.stringify(valid.errors));
  assert.deepEqual(record.fields.map((each) => [each.id, each.value, each.unit]), [[id, "2025-10-31", undefined]]);
  const again = page.locator(`.records tr[data-of-step="${/^step-(\d+)/.exec(id)[1]}"] input`).first();
  assert.equal(await again.inputValue(), await page.evaluate(() => // as ICU writes it (Unicode CLDR)
    new Intl.DateTimeFormat(document.documentElement.lang, { dateStyle: "medium", timeZone: "UTC" }).format(new Date(Date.UTC(2025, 9, 31)))));

  const other = await open(await device(t), sheet);
  for (const value of ["31 October", "2025-02-30", "2025-13-01"]) {
    await choose_file(other, JSON.stringify({ ...record, fields: [{ ...record.fields[0], value }] }));
    assert.match(await report(other), /fields\[0\]\.value is not a day/, value);
    assert.equal(await tick(other, id).inputValue(), "");
  }
  await choose_file(other, JSON.stringify(record));
  assert.equal(await tick(other, id).inputValue(), "2025-10-31");
});

test("a time of day is kept, goes to a file and comes back, and what is none is refused", async (t) => {
  const page = await open(await device(t), sheet);
  const field = page.locator('.step .field:not(.clocked) input[type="time"]').first();
  const id = await field.getAttribute("data-id");
  await field.fill("14:30");
  await page.reload();
  assert.equal(await field.inputValue(), "14:30");
  const record = await save(page);
  assert.ok(valid(record), JSON.stringify(valid.errors));
  assert.deepEqual(record.fields.map((each) => [each.id, each.value, each.unit]), [[id, "14:30", undefined]]);
  const again = page.locator(`.records tr[data-of-step="${/^step-(\d+)/.exec(id)[1]}"] input`).first();
  assert.equal(await again.inputValue(), "14:30");

  const other = await open(await device(t), sheet);
  for (const value of ["half past two", "24:00", "14:60", "2:30"]) {
    await choose_file(other, JSON.stringify({ ...record, fields: [{ ...record.fields[0], value }] }));
    assert.match(await report(other), /fields\[0\]\.value is not a time of day/, value);
    assert.equal(await tick(other, id).inputValue(), "");
  }
  await choose_file(other, JSON.stringify(record));
  assert.equal(await tick(other, id).inputValue(), "14:30");
});

test("a broken record is refused by what is wrong with it, and nothing here changes", async (t) => {
  const one = await open(await device(t), sheet);
  await fill_in(one);
  const good = JSON.stringify(await save(one));
  const page = await open(await device(t), sheet);
  await tick(page, "step-3-2").check();
  const before = await kept(page);
  for (const [name, spoil, message] of broken) {
    await choose_file(page, spoil(good));
    const words = await report(page);
    assert.match(words, /^The record was not taken over, and nothing here has changed/, name);
    assert.match(words, message, name);
    assert.deepEqual(await kept(page), before, name);
  }
  await choose_file(page, good);
  assert.match(await report(page), /ticks 3/);
});

test("what the script refuses for its form, the schema refuses too", async (t) => {
  const one = await open(await device(t), sheet);
  await fill_in(one);
  const good = JSON.stringify(await save(one));
  // These are wrong for this sheet only, or not one document.
  const of_this_sheet = /another system|another procedure|not there|of a field|built-in|twice|unit|words not measured|a day that is none|too large/;
  let tried = 0;
  for (const [name, spoil] of broken.filter(([name]) => !of_this_sheet.test(name))) {
    let document;
    try {
      document = JSON.parse(spoil(good));
    } catch {
      continue;
    }
    assert.equal(valid(document), false, name);
    tried += 1;
  }
  assert.ok(tried > 12);
});

test("a record of another version is told, asked about, and taken over where the words are the same", async (t) => {
  const one = await open(await device(t), sheet);
  await fill_in(one);
  const record = await save(one);
  record.content_version = "0".repeat(64);
  record.ticks[1].id = "step-77-9"; // the same words elsewhere
  record.ticks.push({ ...record.ticks[1], id: "step-78-1", text: "Set Samovar to on." });
  const page = await open(await device(t), sheet);
  await tick(page, "step-3-2").check();
  await choose_file(page, JSON.stringify(record));
  assert.ok(await page.locator("#offer").isVisible());
  assert.match(plain(await page.locator("#offer p").innerText()), /another version of the sheet: 000000000000, not [0-9a-f]{12}/);
  assert.deepEqual(await ticked(page), ["step-3-2"]);
  await page.getByRole("button", { name: "Leave it" }).click();
  assert.deepEqual(await ticked(page), ["step-3-2"]);
  assert.match(await report(page), /Nothing here has changed/);
  assert.equal(await page.locator("#offer").isVisible(), false);

  await choose_file(page, JSON.stringify(record));
  await page.getByRole("button", { name: "Take over what still fits" }).click();
  assert.deepEqual(await ticked(page), ["wear-1", "step-3-1", "step-3-2", "after-2"]);
  assert.match(await report(page), /ticks 3, .*left out: 1\./s);
});

test("a new version of a sheet says that the device keeps a record of the old one", async (t) => {
  const context = await device(t);
  const old = await open(context, sheet);
  await fill_in(old);
  await old.close();
  const newer = join(folder, "newer.html");
  writeFileSync(newer, read(sheet).replace(/data-content-version="[0-9a-f]+"/, `data-content-version="${"1".repeat(64)}"`));
  const page = await open(context, newer);
  assert.deepEqual(await ticked(page), []);
  assert.match(plain(await page.locator("#offer p").innerText()), /This device keeps a record, saved on .* of another version/);
  await page.getByRole("button", { name: "Take over what still fits" }).click();
  assert.deepEqual(await ticked(page), ["wear-1", "step-3-1", "after-2"]);
  // The old one is still there, for the old sheet.
  assert.deepEqual(await ticked(await open(context, sheet)), ["wear-1", "step-3-1", "after-2"]);
});

test("sheets of other procedures keep their own records, and the one that follows takes over the options", async (t) => {
  const context = await device(t);
  const page = await open(context, sheet);
  await fill_in(page);
  const other = await open(context, write_sheet("examples/heronmoor/heronmoor.curb", "recommission"));
  assert.deepEqual(await ticked(other), []);
  const record = await save(page);
  await choose_file(other, JSON.stringify(record));
  assert.match(await report(other), /The record is of Lay up for winter, which comes before this\. Taken from it, what yours has: 1\./);
  const after = await kept(other);
  assert.deepEqual([after.ticks, after.fields], [[], {}]);
  assert.equal(after.options.filter((each) => each === "has_not").length, 1);
  // What was said here already stays, and that is told.
  await other.locator('[data-option="filter_fitted"] input[value="has"]').check();
  await choose_file(other, JSON.stringify(record), "again.json");
  assert.match(await report(other), /what yours has: 0\..*Kept as it is here.*Drinking-water filter/);
  // One that says nothing of them is told as that, not as a count of none.
  record.options.forEach((option) => Object.assign(option, { state: "unknown" }));
  await choose_file(other, JSON.stringify(record), "unsaid.json");
  assert.match(await report(other), /It does not say what yours has/);
  assert.doesNotMatch(await report(other), /: 0/);
  // The other way round nothing follows from it.
  await choose_file(page, JSON.stringify(await save(other)), "spring.json");
  assert.match(await report(page), /It is of the procedure/);
});
