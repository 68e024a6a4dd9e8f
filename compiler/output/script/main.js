// Puts it all to work: what needs a script comes into view, what was kept is brought back, every move is listened to.
for (const node of all("[data-needs-script]")) {
  node.hidden = false;
}
root.classList.add("scripted");

document.addEventListener("change", ({ target }) => {
  const { id } = target.dataset;
  if (id) {
    touch(target);
  }
  if (target.type === "checkbox" && id) {
    commit([{ kind: "tick", id, before: before("tick", id), after: target.checked ? { at: now() } : null }]);
  } else if (id) {
    typingIn = null; // the field was left
  }
});
document.addEventListener("input", ({ target }) => {
  const item = items.get(target.dataset?.id);
  if (item?.kind === "field") {
    filledIn(item);
  }
});
for (const item of items.values()) {
  item.chooser?.addEventListener("change", () => changeUnit(item));
  item.unmeasured?.addEventListener("change", () => sayUnmeasured(item));
  if (item.isNumber) {
    item.input.addEventListener("change", () => {
      judgeField(item);
      if (isOut(item)) {
        announce(complaintOf(item).wrong);
      }
    });
  }
}
for (const { box } of options) {
  box.addEventListener("change", chooseVariant);
}
one("#next-open").addEventListener("click", goToNextOpen);
one("#take-back").addEventListener("click", takeBack);
one("#save-record").addEventListener("click", saveFile);
one("#open-record").addEventListener("change", openFile);
one("#clear-record").addEventListener("click", askToClear);
for (const button of all("#clear-question button")) {
  button.addEventListener("click", answerClear);
}
for (const button of all("#offer button")) {
  button.addEventListener("click", answerOffer);
}
one("#view").addEventListener("change", changeView);
one("#large-soon").addEventListener("change", ({ target }) => {
  one("#large-targets").checked = target.checked;
  changeView();
});
one(".begin a").addEventListener("click", (event) => {
  if (goToWhatComesBefore()) {
    event.preventDefault();
  }
});
// A device that slept has not run its timers.
document.addEventListener("visibilitychange", () => {
  if (document.visibilityState === "visible" && waits.some(timesOf)) {
    lookAtWaits();
  }
});

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
whenChanged(showUnsaid);
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
whenChanged(openRemedies);
whenChanged(showWaits);
whenChanged(showRounds);
whenChanged(showNotCompared);
whenChanged(judgeFields);
whenChanged(lookWhere);
addEventListener("scroll", lookWhere, { passive: true });
addEventListener("resize", lookWhere);
showView();
keepClearOfBar();
foldAll();
restoreKept();
changed();
layOut();
comeBack();
addEventListener("pagehide", rememberPlace);
document.addEventListener("visibilitychange", () => {
  if (document.visibilityState === "hidden") {
    rememberPlace(); // a telephone may end the page without another word
  }
});
