// How far the reader is. A step is done when all that there is to tick in it is ticked, its waits are over, and all that
// there is to fill in is filled in as it must be, or was not measured. What is done only if it comes to that counts once
// something in it is ticked.
const steps = all(".step").map((node) => ({
  node,
  number: Number(one(".number", node).textContent),
  ticks: all('input[type="checkbox"][data-id]:not(.waited)', node),
  fields: all(".field:not(.clocked, .round) input[data-id]", node).map(({ dataset }) => items.get(dataset.id)),
  done: false,
  begun: false,
  waiting: null, // until when, where it is nothing else that it is not done
}));
let lastDone = null; // the number last sent as sheet:step

const underWay = (node) => all('input[type="checkbox"]', node).some(({ checked }) => checked) ||
  all(".field input[data-id]", node).some(({ value }) => value !== "");
function counts(input, within) {
  if (isHidden(input)) {
    return false;
  }
  const remedy = input.closest(".in-case");
  return !remedy || !within.contains(remedy) || underWay(remedy);
}

// All steps that count, in order.
function stepsToDo() {
  return steps.filter((step) => {
    if (isHidden(step.node)) {
      return false;
    }
    const remedy = step.node.closest(".in-case");
    if (remedy && !underWay(remedy)) {
      return false;
    }
    const ticks = step.ticks.filter((input) => counts(input, step.node));
    const fields = step.fields.filter(({ input }) => counts(input, step.node));
    step.begun = ticks.some(({ checked }) => checked);
    step.done = ticks.length + fields.length > 0 && ticks.every(isOver) && fields.every(isSettled);
    const running = ticks.flatMap((input) => (waitOf.has(input) && isRunning(waitOf.get(input)) ? [timesOf(waitOf.get(input)).end] : []));
    step.waiting = running.length > 0 ? new Date(Math.max(...running)) : null;
    return ticks.length + fields.length > 0;
  });
}

function showProgress() {
  const was = new Set(steps.filter(({ done }) => done));
  const begun = new Set(steps.filter((step) => step.begun));
  for (const step of steps) {
    step.done = step.begun = false;
    step.waiting = null;
  }
  const toDo = stepsToDo();
  const done = toDo.filter((step) => step.done);
  for (const step of steps) {
    mark(step);
  }
  for (const link of all('nav ol a[href^="#stage-"]')) {
    const stage = document.getElementById(link.hash.slice(1)).closest(".stage");
    const here = toDo.filter(({ node }) => stage.contains(node));
    one(".tally", link.parentElement).textContent =
      here.length > 0 ? text("of", { done: here.filter((step) => step.done).length, all: here.length }) : "";
  }
  counted = toDo;
  tallyTicks();
  one("#count").textContent = text("progress", { done: done.length, all: toDo.length });
  one("#count").dataset.brief = text("of", { done: done.length, all: toDo.length });
  const bar = one("#bar progress");
  bar.max = Math.max(toDo.length, 1);
  bar.value = done.length;

  const open = toDo.find((step) => !step.done);
  tell(was, begun, toDo);
  const reached = toDo.slice(0, open ? toDo.indexOf(open) : toDo.length).pop()?.number ?? 0;
  if (reached !== lastDone) {
    lastDone = reached;
    document.dispatchEvent(new CustomEvent("sheet:step", { detail: { step: reached } }));
  }
}

// Beside the heading: that it is done and since when, or until when one waits.
function mark({ node, done, waiting, ticks, fields }) {
  const latest = () => {
    const times = [...ticks.map(({ dataset }) => state.ticks.get(dataset.id)?.at), ...fields.map(({ id }) => state.fields.get(id)?.at)];
    return new Date(times.filter((at) => at !== undefined).sort().pop());
  };
  const words = done ? text("done-at", { time: clockAndDay(latest()) }) : waiting ? text("waiting-until", { end: clockAndDay(waiting) }) : null;
  let shown = one("h3 .done-mark", node);
  if (words !== null && !shown) {
    shown = document.createElement("span");
    one("h3", node).append(" ", shown);
  } else if (words === null && shown) {
    shown.remove();
  }
  if (words !== null) {
    shown.className = done ? "done-mark" : "done-mark waiting-mark";
    if (shown.textContent !== words) {
      shown.textContent = words;
    }
  }
  node.classList.toggle("done", done);
  node.classList.toggle("waiting", waiting !== null);
}

// Of what is there to be ticked beside the steps: how much of it is.
function tallyTicks() {
  const tally = (place, within) => {
    const boxes = all('input[type="checkbox"][data-id]', within).filter((input) => !isHidden(input));
    place.textContent =
      boxes.length > 0 ? text("of", { done: boxes.filter(({ checked }) => checked).length, all: boxes.length }) : "";
  };
  for (const { node, head, remedy } of folds) {
    if (!remedy) {
      tally(one(".tally", head), node);
    }
  }
  tally(one('nav a[href="#preparation"] + .tally'), one(".preparation"));
}

// The numbers of the first of them; nobody reads a hundred.
function numbersOf(open) {
  const most = 4;
  const steps = open.slice(0, most).map(({ number }) => number).join(", ");
  return open.length > most ? text("and-more", { steps }) : steps;
}

// What has just become of a step, once the page is up. That a wait is not over is said first of all, and again with every
// tick.
function tell(was, begun, toDo) {
  if (lastDone === null) {
    return;
  }
  const open = toDo.find((step) => !step.done);
  const finished = steps.filter((step) => step.done && !was.has(step));
  const touched = steps.filter((step) => step.begun && !begun.has(step));
  const reopened = steps.filter((step) => !step.done && was.has(step) && !isHidden(step.node));
  const before = (step) => toDo.slice(0, toDo.indexOf(step)).filter(({ done, waiting }) => !done && waiting === null);
  const acted = finished.length === 1 ? finished[0] : touched.length === 1 ? touched[0] : null;
  const here = acted?.node ?? (touchedLast?.checked ? touchedLast.closest(".step") : null);
  const wait = here ? waitBefore(here) : null;
  const through = acted && rounds.find((each) => each.of.contains(acted.node) && isThrough(each));
  if (wait) {
    announce(text("not-ready", wait));
  } else if (through && finished.length === 1) {
    announce(through.told.textContent);
  } else if (finished.length === 1) {
    const { number } = finished[0];
    const passed = before(finished[0]);
    announce(passed.length > 0 ? text("step-done-open", { step: number, steps: numbersOf(passed) })
      : open ? text("step-done", { step: number, next: open.number }) : text("last-step-done", { step: number }));
  } else if (touched.length === 1 && touched[0].waiting) {
    announce(text("wait-begins", { step: touched[0].number, end: clockAndDay(touched[0].waiting) }));
  } else if (touched.length === 1 && before(touched[0]).length > 0) {
    announce(text("still-open", { step: touched[0].number, steps: numbersOf(before(touched[0])) }));
  } else if (reopened.length === 1) {
    announce(text("step-open", { step: reopened[0].number }));
  }
}

// At once: nothing on this page moves by itself, which is calm for all (WCAG 2.2, 2.3.3), and a hundred steps that fly by
// tell nobody anything.
function goTo(node) {
  node.tabIndex = -1;
  node.focus({ preventScroll: true });
  node.scrollIntoView({ block: "start" });
}

// What is to be looked at and to be had ready before the first step: not passed over without a word. Whoever goes on all
// the same is not held up a second time.
const beforehand = all(".preparation .fold");
const askedBefore = new Set();
const openBefore = () => beforehand.map((node) => {
  const boxes = all('input[type="checkbox"][data-id]', node).filter((input) => !isHidden(input));
  return { node, all: boxes.length, open: boxes.filter(({ checked }) => !checked) };
}).find(({ node, open }) => open.length > 0 && !askedBefore.has(node));

function goToWhatComesBefore() {
  const found = openBefore();
  if (!found || steps.some(({ begun, done }) => begun || done)) {
    return false;
  }
  askedBefore.add(found.node);
  openAround(found.open[0]);
  // What is to be ticked first has to be seen, however much stands above it.
  goTo(one(":is(h2, h3)", found.node));
  const first = one('input[type="checkbox"][data-id]:not(:checked)', found.node);
  if (first && first.getBoundingClientRect().bottom > one("#bar").getBoundingClientRect().top) {
    (first.closest("table") ?? first).scrollIntoView({ block: "start" });
  }
  announce(text("first-this", { done: found.all - found.open.length, all: found.all }));
  return true;
}

// The table of how things stand at first is what all hangs on: that it was not gone through is said above the steps.
function showNotCompared() {
  const note = one("#not-compared");
  const table = one(".start-table");
  const boxes = table ? all('input[type="checkbox"][data-id]', table).filter((input) => !isHidden(input)) : [];
  const open = boxes.filter(({ checked }) => !checked).length;
  if (note) {
    note.hidden = open === 0;
    one(".tally", note).textContent = text("of", { done: boxes.length - open, all: boxes.length });
  }
}

function goToNextOpen() {
  if (askForRound() || goToWhatComesBefore()) {
    return;
  }
  hush(); // what was said of the place that one leaves
  const toDo = stepsToDo();
  const open = toDo.find((step) => !step.done && step.waiting === null) ?? toDo.find((step) => !step.done);
  if (open) {
    openAround(open.node);
    goTo(headOf(open));
    const wait = waitBefore(open.node);
    if (open.waiting) {
      announce(text("waiting-in", { step: open.number, end: clockAndDay(open.waiting) }));
    } else if (wait) {
      announce(text("not-ready", wait));
    }
  } else {
    announce(text("none-open"));
  }
}
