// Steps that are gone through until something is seen: which round it is, and one more. A round begins anew with all that
// is ticked and filled in there cleared; undo brings it back.
const rounds = all(".round").map((box) => ({
  box, of: box.parentElement, most: Number(box.dataset.rounds), item: items.get(one("input", box).dataset.id),
  told: one(".round-told", box), button: one("button", box), asked: 0,
  warned: 0, // the last round of which it was said that it is not through
}));

const roundOf = ({ item }) => Number(state.fields.get(item.id)?.value ?? "1");
// A round is through when all that is to be ticked in it is.
const isThrough = ({ of }) => {
  const boxes = all('input[type="checkbox"][data-id]:not(.waited)', of).filter((input) => counts(input, of));
  return boxes.length > 0 && boxes.every(isOver);
};

function showRounds() {
  for (const each of rounds) {
    const round = roundOf(each);
    const last = round >= each.most;
    each.told.textContent = text(last ? "last-round" : "round", { round, most: each.most });
    each.button.hidden = last;
  }
}

// What is not done yet in a round is said before it is cleared; whoever presses again means it.
function isLeftOpen(each) {
  const open = counted.filter((step) => !step.done && each.of.contains(step.node));
  if (open.length === 0 || each.warned === roundOf(each)) {
    return false;
  }
  each.warned = roundOf(each);
  each.told.textContent = text("round-open", { steps: numbersOf(open) });
  announce(each.told.textContent);
  return true;
}

function onceMore(each) {
  if (isLeftOpen(each)) {
    return;
  }
  const inside = all("[data-id]", each.of).map(({ dataset }) => items.get(dataset.id)).filter((item) => item !== each.item);
  const cleared = inside.map(({ kind, id }) => ({ kind, id, before: before(kind, id), after: null }))
    .filter((change) => change.before !== null);
  const round = roundOf(each) + 1;
  commit([...cleared, { kind: "field", id: each.item.id, before: before("field", each.item.id), after: { value: String(round), at: now() } }]);
  const first = counted.find(({ node }) => each.of.contains(node));
  if (first) {
    goTo(headOf(first));
  }
  announce(text("round-begins", { round, most: each.most }));
}

// A round that is through asks before the sheet goes on: once, and where the reader is led.
function askForRound() {
  const each = rounds.find((round) => !isHidden(round.box) && round.asked < roundOf(round) && isThrough(round));
  if (!each) {
    return false;
  }
  each.asked = roundOf(each);
  openAround(each.told);
  goTo(each.told);
  return true;
}

for (const each of rounds) {
  each.button.addEventListener("click", () => onceMore(each));
}
