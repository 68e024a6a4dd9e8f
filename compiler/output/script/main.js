// Puts it all to work: what needs a script comes into view, what was kept is brought back, every move is listened to.
for (const node of all("[data-needs-script]")) {
  node.hidden = false;
}
root.classList.add("scripted");

document.addEventListener("change", ({ target }) => {
  const { id } = target.dataset;
  if (target.type === "checkbox" && id) {
    commit([{ kind: "tick", id, before: before("tick", id), after: target.checked ? { at: now() } : null }]);
  } else if (id) {
    typingIn = null; // the field was left
  }
});
function filledIn(item) {
  const value = item.input.value;
  const unit = item.chooser?.value ?? item.units[0];
  type({
    kind: "field", id: item.id, before: before("field", item.id),
    after: value === "" ? null : { value, at: now(), ...(unit === undefined ? {} : { unit }) },
  });
}
document.addEventListener("input", ({ target }) => {
  if (target.type === "text" && target.dataset.id) {
    filledIn(items.get(target.dataset.id));
  }
});
for (const item of items.values()) {
  item.chooser?.addEventListener("change", () => {
    if (item.input.value !== "") {
      typingIn = null;
      filledIn(item);
    }
  });
}
for (const { box } of options) {
  box.addEventListener("change", chooseVariant);
}
one("#next-open").addEventListener("click", goToNextOpen);
one("#take-back").addEventListener("click", takeBack);
one("#save-record").addEventListener("click", saveFile);
one("#open-record").addEventListener("change", openFile);
one("#clear-record").addEventListener("click", clearAll);
for (const button of all("#offer button")) {
  button.addEventListener("click", answerOffer);
}
one("#view").addEventListener("change", changeView);

// The same sheet in another window.
addEventListener("storage", ({ key, newValue }) => {
  if (key === recordKey && newValue !== null) {
    restoreKept();
    changed();
  }
});

whenChanged(hideWhatDoesNotApply);
whenChanged(tickOptionsForPaper);
whenChanged(showProgress);
whenChanged(() => {
  one("#take-back").setAttribute("aria-disabled", String(wayBack.length === 0));
});
// On paper, the unit of what is filled in is the one that was chosen; of an empty field, any of them.
whenChanged(() => {
  for (const { chooser, id } of items.values()) {
    chooser?.closest(".field").classList.toggle("filled", state.fields.has(id));
  }
});
whenChanged(fillRecordOfUse);
showView();
keepClearOfBar();
restoreKept();
changed();
