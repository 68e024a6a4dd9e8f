// How far the reader is. A step is done when all that there is to tick in it is ticked, or, where there is only
// something to fill in, when that is filled in. What is done only if it comes to that counts once something in it is
// ticked.
const steps = all(".step").map((node) => ({
  node,
  number: Number(one(".number", node).textContent),
  ticks: all('input[type="checkbox"][data-id]', node),
  fields: all(".field input[data-id]", node).map(({ dataset }) => items.get(dataset.id)),
  done: false,
  begun: false,
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
    step.done = ticks.length > 0 ? ticks.every(({ checked }) => checked) : fields.length > 0 && fields.every(isSettled);
    return ticks.length + fields.length > 0;
  });
}

function showProgress() {
  const was = new Set(steps.filter(({ done }) => done));
  const begun = new Set(steps.filter((step) => step.begun));
  for (const step of steps) {
    step.done = step.begun = false;
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

function mark({ node, done }) {
  const shown = one(".done-mark", node);
  if (done && !shown) {
    const word = document.createElement("span");
    word.className = "done-mark";
    word.textContent = text("done");
    one("h3", node).append(" ", word);
  } else if (!done && shown) {
    shown.remove();
  }
  node.classList.toggle("done", done);
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

// What has just become of a step, once the page is up.
function tell(was, begun, toDo) {
  if (lastDone === null) {
    return;
  }
  const open = toDo.find((step) => !step.done);
  const finished = steps.filter((step) => step.done && !was.has(step));
  const touched = steps.filter((step) => step.begun && !begun.has(step));
  const reopened = steps.filter((step) => !step.done && was.has(step) && !isHidden(step.node));
  const before = (step) => toDo.slice(0, toDo.indexOf(step)).filter(({ done }) => !done);
  const wait = touched.length === 1 ? waitBefore(touched[0].node) : null;
  if (wait) {
    announce(text("not-ready", wait));
  } else if (finished.length === 1) {
    const { number } = finished[0];
    const passed = before(finished[0]);
    announce(passed.length > 0 ? text("step-done-open", { step: number, steps: numbersOf(passed) })
      : open ? text("step-done", { step: number, next: open.number }) : text("last-step-done", { step: number }));
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

function goToNextOpen() {
  const open = stepsToDo().find((step) => !step.done);
  if (open) {
    openAround(open.node);
    goTo(headOf(open));
  } else {
    announce(text("none-open"));
  }
}
