// The record to a file and back. What a file says is added to what there is; nothing that is here is lost.
const largestFile = 5e6; // bytes: a hundred times what the longest procedure makes

function saveFile() {
  const name = [sheet.system, sheet.procedure, now().slice(0, 10)].join("-") + ".json";
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([JSON.stringify(makeRecord(state), null, 2), "\n"], { type: "application/json" }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  announce(text("saved", { file: name }));
}

async function openFile(event) {
  const [file] = event.target.files;
  if (!file) {
    return;
  }
  withdrawOffer();
  try {
    if (file.size > largestFile) {
      throw new Refusal("refused-size", { file: file.name, most: largestFile / 1e6 });
    }
    const record = readRecord(await file.text());
    if (record.same || record.earlier !== null) {
      takeOver(record);
    } else {
      offerRecord(record, "other-version");
      one("#offer p").focus();
    }
  } catch (error) {
    report(text("refused", { why: why(error) }));
  }
  event.target.value = ""; // so that the same file can be chosen again
}

// Where what came of a file is said. It stays, and is read aloud.
function report(words) {
  one("#report").textContent = words;
}

// Which of our items an entry is about. In a record of another version ids may mean other things, so the words have to
// be the same: those of the item and those of its step.
function itemOf(entry, kind, same) {
  const item = items.get(entry.id);
  const fits = (each) => each.kind === kind && each.text === entry.text && each.step === entry.step;
  if (same || (item && fits(item))) {
    return item;
  }
  const alike = [...items.values()].filter(fits);
  return alike.length === 1 ? alike[0] : null;
}

function takeOver(record) {
  const changes = [];
  const taken = { ticks: 0, fields: 0, options: 0 };
  const differing = [];
  let unplaced = 0;
  const add = (kind, id, after) => {
    if (changes.some((change) => change.kind === kind && change.id === id)) {
      unplaced += 1; // two of theirs look like one of ours
      return;
    }
    changes.push({ kind, id, before: before(kind, id), after });
    taken[`${kind}s`] += 1;
  };

  for (const { name, state: said } of record.options) {
    const here = options.findIndex((option) => option.name === name);
    if (here < 0) {
      unplaced += said === "unknown" ? 0 : 1;
    } else if (said !== "unknown" && state.options[here] === "unknown") {
      add("option", name, said);
    } else if (said !== "unknown" && state.options[here] !== said) {
      differing.push(options[here].label);
    }
  }
  const earlier = record.earlier !== null; // its ticks are of other steps
  for (const entry of earlier ? [] : record.ticks) {
    const item = itemOf(entry, "tick", record.same);
    if (!item) {
      unplaced += 1;
    } else if (!state.ticks.has(item.id)) {
      add("tick", item.id, { at: entry.at });
    }
  }
  for (const entry of earlier ? [] : record.fields) {
    const item = itemOf(entry, "field", record.same);
    const unitFits = item && (entry.not_measured ? item.unmeasured !== null
      : entry.unit === undefined ? item.units.length === 0 && (!item.moment || item.moment.is(entry.value))
        : item.units.includes(entry.unit));
    const here = item && state.fields.get(item.id);
    if (!item || !unitFits) {
      unplaced += 1;
    } else if (!here) {
      add("field", item.id, asField(entry));
    } else if (here.value !== entry.value || here.unit !== entry.unit || here.not_measured !== entry.not_measured) {
      differing.push(item.text);
    }
  }
  commit(changes);
  report([
    !earlier ? text("taken-over", taken)
      : record.options.every((option) => option.state === "unknown") ? text("options-unsaid", { procedure: record.earlier })
        : text("options-taken", { procedure: record.earlier, options: taken.options }),
    ...(differing.length > 0 ? [text("kept-ours", { names: differing.join("; ") })] : []),
    ...(unplaced > 0 ? [text("unplaced", { count: unplaced })] : []),
  ].join(" "));
}

// A record of another version is not taken without asking.
let offered = null;

function offerRecord(record, words) {
  offered = record;
  one("#offer p").textContent = text(words, {
    theirs: record.contentVersion.slice(0, 12), ours: sheet.contentVersion.slice(0, 12), saved: record.saved.slice(0, 10),
  });
  one("#offer").hidden = false;
  one("#desk").open = true;
  one("#offer p").tabIndex = -1;
}

function withdrawOffer() {
  offered = null;
  one("#offer").hidden = true;
}

function answerOffer(event) {
  const record = offered;
  withdrawOffer();
  if (event.target.value === "take") {
    takeOver(record);
  } else {
    report(text("left-alone"));
  }
  one("#open-record").focus();
}

// Everything anew, for the next season: asked about first, and it can be taken back.
function askToClear() {
  one("#clear-question p").textContent = text("clear-question", { ticks: state.ticks.size, fields: state.fields.size });
  one("#clear-question").hidden = false;
  one("#clear-question p").focus();
}

function answerClear({ target }) {
  one("#clear-question").hidden = true;
  if (target.value === "clear") {
    clearAll();
  }
  one("#clear-record").focus();
}

function clearAll() {
  commit([
    ...[...state.ticks.keys()].map((id) => ({ kind: "tick", id, before: before("tick", id), after: null })),
    ...[...state.fields.keys()].map((id) => ({ kind: "field", id, before: before("field", id), after: null })),
  ]);
  announce(text("cleared"));
}
