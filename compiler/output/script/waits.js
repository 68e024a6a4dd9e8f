// Waits: when one was ticked, and when it is over by the clock of the device.
const waits = all("[data-wait]").map((line) => {
  const input = one('input[type="checkbox"]', line);
  return { line, id: input.dataset.id, step: line.closest(".step"), length: Number(line.dataset.wait) * 1000, shown: null };
});

function timesOf(wait) {
  const tick = state.ticks.get(wait.id);
  return tick && { start: new Date(tick.at), end: new Date(Date.parse(tick.at) + wait.length) };
}

function showWaits() {
  for (const wait of waits) {
    const times = timesOf(wait);
    if (times && !wait.shown) {
      wait.shown = document.createElement("p");
      wait.shown.className = "ready-at";
      wait.line.append(wait.shown);
    } else if (!times && wait.shown) {
      wait.shown.remove();
      wait.shown = null;
    }
    if (times) {
      wait.shown.textContent = text("ready-at", { start: clockAndDay(times.start), end: clockAndDay(times.end) });
    }
  }
}

// The latest wait before that step which is not over yet.
function waitBefore(node) {
  const running = waits.filter((wait) => wait.step && wait.step !== node && timesOf(wait)?.end > new Date() &&
    wait.step.compareDocumentPosition(node) & Node.DOCUMENT_POSITION_FOLLOWING);
  const last = running.pop();
  return last && { step: one(".number", last.step).textContent, end: clockAndDay(timesOf(last).end) };
}
