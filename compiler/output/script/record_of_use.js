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
    const day = item.isDay && value !== "";
    shown.value = day ? new Date(`${value}T00:00:00Z`).toLocaleDateString(root.lang, { timeZone: "UTC" }) : not_measured ? text("not-measured") : value === "" || unit === "" ? value : `${value} ${unit}`;
    shown.readOnly = true;
  }
}
