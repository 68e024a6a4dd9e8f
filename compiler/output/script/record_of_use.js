// The record of use at the end says again what was filled in at the steps: on screen it is filled in there, and only shown
// here. On paper it is written by hand.
const recordOfUse = all(".records tr[data-of-step]").map((row, i, rows) => {
  const { ofStep } = row.dataset;
  const before = rows.slice(0, i).filter((other) => other.dataset.ofStep === ofStep).length;
  const inputs = all(".field input[data-id]", document.getElementById(`step-${ofStep}`));
  return { shown: one("input", row), item: items.get(inputs[before].dataset.id) };
});

function fillRecordOfUse() {
  for (const { shown, item } of recordOfUse) {
    const { value = "", not_measured } = state.fields.get(item.id) ?? {};
    const unit = item.chooser?.selectedOptions[0].textContent ?? "";
    const amount = unit === "" ? value : `${value} ${unit}`;
    const filledIn = item.moment ? item.moment.shown(value) : amount;
    shown.value = not_measured ? text("not-measured") : value === "" ? "" : filledIn;
    shown.readOnly = true;
  }
}
