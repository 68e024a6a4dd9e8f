// What is filled in: a number where something is measured, or that it was not.
const isNumber = (value) => /^[-+\u2212]?\d[\d\s\u00a0\u202f]*([.,]\d+)?$/.test(value.trim());

// The number that was written: "-3,5" and "1 200" are numbers as their languages write them.
const numberOf = (value) => Number(value.replace(/[\s\u00a0\u202f]/g, "").replace("\u2212", "-").replace(",", "."));

// Only a temperature may be below zero.
const isTemperature = (item) => item.units.some((unit) => unit === "Cel" || unit === "[degF]");
const isReading = (item, value) => isNumber(value) && (isTemperature(item) || !(numberOf(value) < 0));

// Whether a reading is within what must be found (output/html_controls.cpp: "Cel,,-15 [degF],,5"). What is not a number,
// or of no bound, is not beyond one.
function isBeyond(item, value, unit) {
  const bounds = (item.input.dataset.bounds ?? "").split(" ").map((each) => each.split(","));
  const found = bounds.find(([of]) => of === (unit ?? ""));
  if (!found || found.length < 3 || !isNumber(value)) {
    return false;
  }
  const [, least, most] = found;
  const number = numberOf(value);
  return (least !== "" && number < Number(least)) || (most !== "" && number > Number(most));
}

const isOut = (item) => {
  const field = state.fields.get(item.id);
  return field?.value !== undefined && isBeyond(item, field.value, field.unit);
};

// Whether a field needs nothing more. A reading that is not what must be found is kept, but it settles nothing.
function isSettled(item) {
  const field = state.fields.get(item.id);
  return field !== undefined && (field.not_measured === true || !item.isNumber || (isReading(item, field.value) && !isOut(item)));
}

const unitOf = (item) => item.chooser?.value ?? item.units[0];

function filledIn(item) {
  const { value } = item.input;
  const unit = unitOf(item);
  type({
    kind: "field", id: item.id, before: before("field", item.id),
    after: value === "" ? null : { value, at: now(), ...(unit === undefined ? {} : { unit }) },
  });
  if (item.unmeasured) {
    item.unmeasured.checked = false;
  }
}

// A number of another unit is another number: it is not left to stand, and not silently taken away.
function changeUnit(item) {
  if (item.input.value !== "") {
    commit([{ kind: "field", id: item.id, before: before("field", item.id), after: null }]);
    announce(text("unit-changed", { unit: item.chooser.selectedOptions[0].textContent }));
    item.input.focus();
  }
}

function sayUnmeasured(item) {
  commit([{
    kind: "field", id: item.id, before: before("field", item.id),
    after: item.unmeasured.checked ? { not_measured: true, at: now() } : null,
  }]);
}

// What is to be said of what stands in a field; null where nothing is.
function complaintOf(item) {
  const field = state.fields.get(item.id);
  const { within } = item.input.dataset;
  const unit = item.chooser?.selectedOptions[0].textContent ?? one(".unit", item.input.closest(".field"))?.textContent ?? "";
  if (field?.not_measured === true) {
    return within ? { tell: text("reading-unknown", { within }) } : null;
  }
  if (!item.isNumber || item.input.value === "") {
    return null;
  }
  if (!isNumber(item.input.value)) {
    const example = (isTemperature(item) ? -12.5 : 12.5).toLocaleString(root.lang);
    return { wrong: text("not-a-number", { example }) };
  }
  if (!isReading(item, item.input.value)) {
    return { wrong: text("reading-below-zero") };
  }
  if (!isOut(item)) {
    return null;
  }
  const reading = `${item.input.value.trim()} ${unit}`.trim();
  const other = `-${item.input.value.trim()}`;
  const sign = isTemperature(item) && isNumber(other) && !isBeyond(item, other, unitOf(item)) ? ` ${text("reading-sign")}` : "";
  return { wrong: text("reading-beyond", { reading, within }) + sign };
}

// Said beside the field when it is left, not while somebody types.
function judgeField(item) {
  const box = item.input.closest(".field");
  const found = complaintOf(item);
  const words = found?.wrong ?? found?.tell ?? null;
  let shown = one(".wrong", box);
  if (words !== null && !shown) {
    shown = document.createElement("p");
    shown.id = `${item.id}-wrong`;
    box.append(shown);
    item.input.setAttribute("aria-describedby", shown.id);
  } else if (words === null && shown) {
    shown.remove();
    item.input.removeAttribute("aria-describedby");
  }
  if (words !== null) {
    shown.className = "wrong";
    if (shown.textContent !== words) {
      shown.textContent = words;
    }
  }
  if (found?.wrong) {
    item.input.setAttribute("aria-invalid", "true");
  } else {
    item.input.removeAttribute("aria-invalid");
  }
  openWhatFollows(item);
}

// What is to be done in the case that a reading is beyond its bound stands in the boxes right after it: they are opened, once.
const opened = new Set(); // items whose reading has opened them

function openWhatFollows(item) {
  if (!item.isNumber || !isOut(item)) {
    opened.delete(item);
    return;
  }
  if (opened.has(item)) {
    return;
  }
  opened.add(item);
  for (let node = item.input.closest(".step")?.nextElementSibling; node?.matches(".box.in-case"); node = node.nextElementSibling) {
    openAround(one(":scope > :not(.fold-head)", node));
  }
}

function judgeFields() {
  for (const item of items.values()) {
    if (item.isNumber && item.input !== document.activeElement) {
      judgeField(item);
    }
  }
}
