// What the reader has done so far, and the way back. Every change goes through `commit`, so that it is shown, kept and
// can be taken back. A change is plain data: { kind, id, before, after }, null for nothing.
const longestWayBack = 50;

const state = {
  options: options.map(() => "unknown"),
  ticks: new Map(), // id -> { at }
  fields: new Map(), // id -> { value, at, unit }, or { not_measured: true, at }
};
let wayBack = []; // lists of changes, the latest last
let typingIn = null; // the field whose letters are one change

const listeners = [];
const whenChanged = (listener) => listeners.push(listener);

function set({ kind, id }, value) {
  if (kind === "option") {
    state.options[options.findIndex(({ name }) => name === id)] = value ?? "unknown";
  } else if (value === null) {
    state[`${kind}s`].delete(id);
  } else {
    state[`${kind}s`].set(id, value);
  }
}

// The page as the state says.
function show({ kind, id }) {
  if (kind === "option") {
    const i = options.findIndex(({ name }) => name === id);
    one(`input[value="${state.options[i]}"]`, options[i].box).checked = true;
    return;
  }
  const { input, chooser, unmeasured } = items.get(id);
  if (kind === "tick") {
    input.checked = state.ticks.has(id);
    return;
  }
  const field = state.fields.get(id);
  input.value = field?.value ?? "";
  if (chooser && field?.unit) {
    chooser.value = field.unit;
  }
  if (unmeasured) {
    unmeasured.checked = field?.not_measured === true;
  }
}

function store() {
  keep(recordKey, JSON.stringify(makeRecord(state)));
  keep(undoKey, JSON.stringify(wayBack));
}

function changed() {
  for (const listener of listeners) {
    listener();
  }
}

// Only what is said of an option hides and shows what may stand above the reader.
function showChanges(changes) {
  if (changes.some(({ kind }) => kind === "option")) {
    keepStill(changed);
  } else {
    changed();
  }
}

function commit(changes) {
  if (changes.length === 0) {
    return;
  }
  hush();
  for (const change of changes) {
    set(change, change.after);
    show(change);
  }
  wayBack = [...wayBack, changes].slice(-longestWayBack);
  typingIn = null;
  store();
  showChanges(changes);
}

// Letters typed into one field, one after the other, are taken back together.
function type(change) {
  const last = wayBack[wayBack.length - 1];
  if (typingIn === change.id && last?.length === 1 && last[0].id === change.id) {
    last[0].after = change.after;
    set(change, change.after);
    store();
    changed();
  } else {
    commit([change]);
    typingIn = change.id;
  }
}

function takeBack() {
  const changes = wayBack[wayBack.length - 1];
  if (!changes) {
    announce(text("nothing-to-take-back"));
    return;
  }
  wayBack = wayBack.slice(0, -1);
  typingIn = null;
  hush();
  for (const change of [...changes].reverse()) {
    set(change, change.before);
    show(change);
  }
  store();
  showChanges(changes);
  if (changes.length === 1 && changes[0].kind !== "option") {
    bringIntoView(items.get(changes[0].id).input);
  }
  announce(undone(changes));
}

function undone(changes) {
  if (changes.length > 1) {
    return text("undone-many", { count: changes.length });
  }
  const [{ kind, id }] = changes;
  if (kind === "option") {
    return text("undone-option", { what: options.find(({ name }) => name === id).label });
  }
  const item = items.get(id);
  const what = shortened(item.text);
  const step = item.input.closest(".step");
  const values = { what, ...(step ? { step: one(".number", step).textContent } : {}) };
  return kind === "tick"
    ? step ? text("undone-tick-step", values) : text("undone-tick", values)
    : step ? text("undone-field-step", values) : text("undone-field", values);
}

const now = () => new Date().toISOString();
const before = (kind, id) => {
  const value = kind === "option" ? state.options[options.findIndex(({ name }) => name === id)] : state[`${kind}s`].get(id);
  return value ?? null;
};

// Of an entry of a record, what is kept of its field.
const asField = ({ at, value, unit, not_measured }) =>
  Object.fromEntries(Object.entries({ value, at, unit, not_measured }).filter(([, each]) => each !== undefined));

// What there is, brought to what a record says.
function restore(record) {
  const said = (list) => new Map(list.map((entry) => [entry.id, asField(entry)]));
  state.options = options.map(({ name }) => record.options.find((each) => each.name === name)?.state ?? "unknown");
  state.ticks = said(record.ticks);
  state.fields = said(record.fields);
  for (const { name } of options) {
    show({ kind: "option", id: name });
  }
  for (const { kind, id } of items.values()) {
    show({ kind, id });
  }
}

// A way back that was kept is only good for what is on the page.
function isWayBack(found) {
  const fits = ({ kind, id, before, after }) => {
    const value = kind === "option"
      ? (each) => optionStates.includes(each)
      : (each) => each === null || (isGroup(each) && isDate(each.at) && (kind === "tick" || each.not_measured === true || typeof each.value === "string"));
    const known = kind === "option" ? options.some(({ name }) => name === id) : items.get(id)?.kind === kind;
    return known && value(before) && value(after);
  };
  return Array.isArray(found) && found.every((list) => Array.isArray(list) && list.every((each) => isGroup(each) && fits(each)));
}

// A new version of a sheet starts empty, but not silently so. The latest record that says anything is offered.
function offerOtherKept() {
  const found = otherKept().flatMap((kept) => {
    try {
      return [readRecord(kept)];
    } catch {
      return []; // nothing of ours is lost by leaving it where it is
    }
  }).filter(({ ticks, fields }) => ticks.length + fields.length > 0);
  if (found.length > 0) {
    offerRecord(found.reduce((a, b) => (a.saved > b.saved ? a : b)), "kept-other-version");
  }
}

function restoreKept() {
  const kept = readKept(recordKey);
  if (kept !== null) {
    try {
      const record = readRecord(kept);
      if (record.same) {
        restore(record);
      } else {
        offerRecord(record, "kept-other-version"); // by another version of the program
      }
    } catch (error) {
      setAside(kept, error);
    }
  } else {
    offerOtherKept();
  }
  try {
    const found = JSON.parse(readKept(undoKey) ?? "[]");
    wayBack = isWayBack(found) ? found : [];
  } catch {
    wayBack = [];
  }
}
