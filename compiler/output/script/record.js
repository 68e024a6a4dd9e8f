// The record as JSON (output/schema/record.schema.json): what was ticked, filled in and said of the options, and when.
const recordFormat = "curbstop-record";
const recordVersion = 1;

const optionStates = ["unknown", "has", "has_not"];

function makeRecord(state) {
  const of = (kind) => [...items.values()].filter((item) => item.kind === kind && state[`${kind}s`].has(item.id));
  const named = (item) => ({ id: item.id, ...(item.step === null ? {} : { step: item.step }), text: item.text });
  return {
    format: recordFormat,
    version: recordVersion,
    system: { name: sheet.system, label: sheet.systemLabel },
    procedure: { name: sheet.procedure, label: sheet.procedureLabel },
    content_version: sheet.contentVersion,
    program: sheet.program,
    saved: new Date().toISOString(),
    options: options.map(({ name, label }, i) => ({ name, label, state: state.options[i] })),
    ticks: of("tick").map((item) => ({ ...named(item), at: state.ticks.get(item.id).at })),
    fields: of("field").map((item) => ({ ...named(item), ...state.fields.get(item.id) })),
  };
}

// Why a record cannot be taken: the name of a text of the page, and what goes into it.
class Refusal extends Error {
  constructor(name, values = {}) {
    super(name);
    this.values = values;
  }
}
// What is wrong at some place of the file is for who looks into it; what it means comes first.
const why = (error) => {
  if (!(error instanceof Refusal)) {
    return String(error);
  }
  const detail = text(error.message, error.values);
  return "path" in error.values ? text("refused-damaged", { detail }) : detail;
};

const isGroup = (value) => value !== null && typeof value === "object" && !Array.isArray(value);
// RFC 3339, in UTC, as toISOString writes it.
const isDate = (value) =>
  typeof value === "string" && /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/.test(value) && !Number.isNaN(Date.parse(value));
// What fields for a day (RFC 3339, full-date) and for the time of a day hold, whatever they show.
const isDay = (value) => /^\d{4}-\d\d-\d\d$/.test(value) && new Date(`${value}T00:00:00Z`).toJSON()?.startsWith(value) === true;
const isClock = (value) => /^([01]\d|2[0-3]):[0-5]\d$/.test(value);
const moments = {
  date: {
    is: isDay, refusal: "refused-day",
    shown: (value) => new Date(`${value}T00:00:00Z`).toLocaleDateString(root.lang, { dateStyle: "medium", timeZone: "UTC" }),
  },
  time: { is: isClock, refusal: "refused-clock", shown: (value) => value },
};
const kinds = {
  text: (value) => typeof value === "string",
  number: (value) => Number.isInteger(value),
  list: Array.isArray,
  group: isGroup,
  date: isDate,
  state: (value) => optionStates.includes(value),
  "not-measured": (value) => value === true,
};

function member(of, name, kind, path) {
  const where = path === "" ? name : `${path}.${name}`;
  if (!Object.prototype.hasOwnProperty.call(of, name)) {
    throw new Refusal("refused-missing", { path: where });
  }
  if (!kinds[kind](of[name])) {
    throw new Refusal(`refused-${kind}`, { path: where });
  }
  return of[name];
}

function entries(record, name, key, read) {
  const seen = new Set();
  return member(record, name, "list", "").map((entry, i) => {
    const path = `${name}[${i}]`;
    if (!isGroup(entry)) {
      throw new Refusal("refused-group", { path });
    }
    const id = member(entry, key, "text", path);
    if (seen.has(id)) {
      throw new Refusal("refused-twice", { path: `${path}.${key}`, id });
    }
    seen.add(id);
    return read(entry, id, path);
  });
}

// Reads a record from text, or throws a Refusal that names what is wrong with it. `same` in what it gives: it is of the
// very version of this sheet, and every id in it is one of ours.
function readRecord(source) {
  let record;
  try {
    record = JSON.parse(source);
  } catch {
    throw new Refusal("refused-format");
  }
  if (!isGroup(record) || record.format !== recordFormat) {
    throw new Refusal("refused-format");
  }
  const version = member(record, "version", "number", "");
  if (version !== recordVersion) {
    throw new Refusal("refused-version", { found: version, known: recordVersion });
  }
  // Of the procedure before this one, what it says of the vehicle holds here too.
  let earlier = null;
  for (const name of ["system", "procedure"]) {
    const of = member(record, name, "group", "");
    const label = member(of, "label", "text", name);
    const theirs = member(of, "name", "text", name);
    if (name === "procedure" && theirs !== sheet.procedure && theirs === sheet.follows) {
      earlier = label;
    } else if (theirs !== sheet[name]) {
      throw new Refusal(`refused-other-${name}`, { theirs: label, ours: sheet[`${name}Label`] });
    }
  }
  const contentVersion = member(record, "content_version", "text", "");
  // Another program numbers what can be ticked in another way, so its records are as those of another text.
  const same = earlier === null && contentVersion === sheet.contentVersion && member(record, "program", "text", "") === sheet.program;
  const saved = member(record, "saved", "date", "");

  const known = (id, kind, path) => {
    if (same && items.get(id)?.kind !== kind) {
      throw new Refusal("refused-id", { path, id });
    }
  };
  const common = (entry, path) => ({
    step: "step" in entry ? member(entry, "step", "text", path) : null,
    text: member(entry, "text", "text", path),
    at: member(entry, "at", "date", path),
  });
  return {
    same, earlier, contentVersion, saved,
    options: entries(record, "options", "name", (entry, name, path) => {
      if (same && !options.some((option) => option.name === name)) {
        throw new Refusal("refused-id", { path: `${path}.name`, id: name });
      }
      member(entry, "label", "text", path);
      return { name, state: member(entry, "state", "state", path) };
    }),
    ticks: entries(record, "ticks", "id", (entry, id, path) => {
      known(id, "tick", `${path}.id`);
      return { id, ...common(entry, path) };
    }),
    fields: entries(record, "fields", "id", (entry, id, path) => {
      known(id, "field", `${path}.id`);
      if ("not_measured" in entry) {
        member(entry, "not_measured", "not-measured", path);
        if ("value" in entry || "unit" in entry || (same && !items.get(id).unmeasured)) {
          throw new Refusal("refused-not-measured", { path: `${path}.not_measured` });
        }
        return { id, ...common(entry, path), not_measured: true };
      }
      const unit = "unit" in entry ? member(entry, "unit", "text", path) : null;
      if (same && !(unit === null ? items.get(id).units.length === 0 : items.get(id).units.includes(unit))) {
        throw new Refusal("refused-unit", { path: `${path}.unit`, unit: unit ?? "" });
      }
      const value = member(entry, "value", "text", path);
      if (value === "") {
        throw new Refusal("refused-empty", { path: `${path}.value` });
      }
      const moment = same ? items.get(id).moment : null;
      if (moment && !moment.is(value)) {
        throw new Refusal(moment.refusal, { path: `${path}.value` });
      }
      return { id, ...common(entry, path), value, ...(unit === null ? {} : { unit }) };
    }),
  };
}
