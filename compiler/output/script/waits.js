// Waits. The tick at one starts its clock; it is over when its time is up by the clock of the device, or when the reader
// says that he has waited by another one. When it began can be put right: what is waited for may have begun before.
const waits = all("[data-wait]").map((line) => {
  const input = one('input[type="checkbox"]', line);
  return {
    line, input, id: input.dataset.id, step: line.closest(".step"), length: Number(line.dataset.wait) * 1000,
    box: one(".wait-box", line), began: one(".wait-began", line), waited: one(".waited", line), told: one(".ready-at", line),
  };
});
const waitOf = new Map(waits.map((wait) => [wait.input, wait]));

// The latest time before the tick at which the clock said so.
function beganAt(tick, began) {
  const start = new Date(tick.at);
  const [hours, minutes] = (began?.value ?? "").split(":").map(Number);
  if (!Number.isInteger(hours) || !Number.isInteger(minutes)) {
    return start;
  }
  const said = new Date(start);
  said.setHours(hours, minutes, 0, 0);
  if (said > start) {
    said.setDate(said.getDate() - 1);
  }
  return said;
}

function timesOf(wait) {
  const tick = state.ticks.get(wait.id);
  if (!tick) {
    return null;
  }
  const start = beganAt(tick, state.fields.get(wait.began.dataset.id));
  return { start, end: new Date(start.getTime() + wait.length) };
}

const isRunning = (wait) => {
  const times = timesOf(wait);
  return times !== null && times.end > new Date() && !state.ticks.has(wait.waited.dataset.id);
};

// Whether what is ticked is done with: of a wait, its time is up.
const isOver = (input) => input.checked && !(waitOf.has(input) && isRunning(waitOf.get(input)));

let waitTimer = null;

function showWaits() {
  let next = Infinity;
  for (const wait of waits) {
    const times = timesOf(wait);
    const running = times !== null && times.end > new Date();
    wait.box.hidden = times === null;
    one(".wait-hint", wait.line).hidden = times !== null;
    wait.waited.closest(".tick").hidden = !running && !wait.waited.checked;
    wait.told.textContent = times === null ? ""
      : text(isRunning(wait) ? "ready-at" : "wait-over", { start: clockAndDay(times.start), end: clockAndDay(times.end) });
    if (isRunning(wait)) {
      next = Math.min(next, times.end.getTime());
    }
  }
  markTooEarly();
  clearTimeout(waitTimer);
  if (next < Infinity) {
    // A telephone that slept looks again when it wakes up (main.js); timers are not to be longer than a day.
    waitTimer = setTimeout(lookAtWaits, Math.min(Math.max(next - Date.now(), 0) + 50, 86400000));
  }
}

// Whether the time of some wait has come.
function lookAtWaits() {
  const waiting = steps.filter((step) => step.waiting !== null);
  changed();
  const over = waiting.filter((step) => step.waiting === null && !isHidden(step.node));
  if (over.length > 0) {
    announce(text("wait-is-over", { step: over.map(({ number }) => number).join(", ") }));
  }
}

// The latest wait before that step which is not over yet.
function waitBefore(node) {
  const running = waits.filter((wait) => wait.step && wait.step !== node && !isHidden(wait.line) && isRunning(wait) &&
    wait.step.compareDocumentPosition(node) & Node.DOCUMENT_POSITION_FOLLOWING);
  const last = running.pop();
  return last ? { step: one(".number", last.step).textContent, end: clockAndDay(timesOf(last).end) } : null;
}

// Whoever goes on before a wait is over finds that said on the card, for as long as it is so; it stands on the step to
// which the wait leads from the first.
function markTooEarly() {
  const any = waits.some(isRunning);
  const next = any ? stepsToDo().find((step) => !step.done && step.waiting === null && waitBefore(step.node)) : null;
  for (const { node, begun } of steps) {
    const wait = any && (begun || node === next?.node) ? waitBefore(node) : null;
    let shown = one(":scope > .too-early", node);
    if (wait && !shown) {
      shown = document.createElement("p");
      shown.className = "too-early";
      one("h3", node).after(shown);
    } else if (!wait && shown) {
      shown.remove();
    }
    if (wait) {
      shown.textContent = text("not-ready", wait);
    }
  }
}
