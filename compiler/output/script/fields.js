// What is filled in: a number where something is measured, or that it was not.
const isNumber = (value) => /^[-+\u2212]?\d[\d\s\u00a0\u202f]*([.,]\d+)?$/.test(value.trim());

// Whether a field needs nothing more.
function isSettled(item) {
  const field = state.fields.get(item.id);
  return field !== undefined && (field.not_measured === true || !item.isNumber || isNumber(field.value));
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

// Said beside the field when it is left, not while somebody types.
function judgeField(item) {
  const wrong = item.isNumber && item.input.value !== "" && !isNumber(item.input.value);
  const box = item.input.closest(".field");
  const shown = one(".wrong", box);
  if (wrong && !shown) {
    const line = document.createElement("p");
    line.className = "wrong";
    line.id = `${item.id}-wrong`;
    line.textContent = text("not-a-number", { example: (12.5).toLocaleString(root.lang) });
    box.append(line);
    item.input.setAttribute("aria-describedby", line.id);
  } else if (!wrong && shown) {
    shown.remove();
    item.input.removeAttribute("aria-describedby");
  }
  item.input.toggleAttribute("aria-invalid", false);
  if (wrong) {
    item.input.setAttribute("aria-invalid", "true");
  }
}

function judgeFields() {
  for (const item of items.values()) {
    if (item.isNumber && item.input !== document.activeElement) {
      judgeField(item);
    }
  }
}
