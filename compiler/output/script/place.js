// Where the reader is on the page, and that the page stays there while things above it come and go.
const headOf = (step) => one("h3", step.node);
let counted = []; // the steps that count, as last shown

// The last step whose heading has come into the upper part of the window.
function stepInSight() {
  const line = innerHeight * 0.2;
  if (one(".stages").getBoundingClientRect().top > line) {
    return null; // and no step has to be laid out to tell so
  }
  const shown = steps.filter(({ node }) => node.getClientRects().length > 0);
  let [low, high] = [0, shown.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (shown[middle].node.getBoundingClientRect().top <= line) {
      low = middle + 1;
    } else {
      high = middle;
    }
  }
  const found = shown[low - 1];
  return found && one(".stages").getBoundingClientRect().bottom > line ? found : null;
}

// Until the page is moved on, one is at the step of what was ticked last, whatever has come to the top of the window.
let touchedLast = null;
let touchedAt = 0;
const farAway = 80; // pixels
function touch(input) {
  touchedLast = input;
  touchedAt = scrollY;
}

function stepUnderHand() {
  const node = touchedLast?.closest(".step");
  return node && Math.abs(scrollY - touchedAt) < farAway ? steps.find((step) => step.node === node && !isHidden(node)) : null;
}

function showWhere() {
  const step = stepUnderHand() ?? stepInSight();
  const title = step ? squeezed(one(".title", step.node).textContent) : sheet.procedureLabel;
  one("#where").textContent = step ? text("where", { step: step.number, title }) : title;
}

// A long sheet is laid out stage by stage once it can be worked, so that it soon has its full height. Whoever comes back
// to a place on it waits for all of it.
const longSheet = 200; // steps

function layOut() {
  const [{ type } = {}] = performance.getEntriesByType("navigation");
  const stages = steps.length > longSheet && type === "navigate" && location.hash === "" ? all(".stage") : [];
  const next = () => {
    const stage = stages.shift();
    if (stage) {
      stage.classList.add("laid-out");
      setTimeout(next);
    } else {
      root.classList.add("laid-out");
    }
  };
  if (stages.length > 0) {
    requestAnimationFrame(() => setTimeout(next));
  } else {
    next();
  }
}

// The step that one was at, for when the page is loaded again: what was unfolded above it is folded then, so that the
// same distance from the top would be another place.
const placeKey = `${recordKey} place`;

function rememberPlace() {
  const step = stepInSight();
  try {
    if (step) {
      sessionStorage.setItem(placeKey, JSON.stringify({ step: step.node.id, top: step.node.getBoundingClientRect().top }));
    } else {
      sessionStorage.removeItem(placeKey);
    }
  } catch {
    // then one begins at the top
  }
}

function comeBack() {
  let place = null;
  try {
    place = JSON.parse(sessionStorage.getItem(placeKey));
  } catch {
    return;
  }
  const node = place && location.hash === "" ? document.getElementById(place.step) : null;
  if (node && !isHidden(node)) {
    history.scrollRestoration = "manual";
    openAround(node);
    scrollBy({ top: node.getBoundingClientRect().top - place.top, behavior: "instant" });
  }
}

let looking = false;
function lookWhere() {
  if (!looking) {
    looking = true;
    requestAnimationFrame(() => {
      looking = false;
      hushElsewhere();
      showWhere();
    });
  }
}

// Runs what may hide or show things, and moves the page so that what the reader has before him stays where it is.
function keepStill(run) {
  const seen = (nodes) => nodes
    .map((node) => ({ node, box: node.getBoundingClientRect() }))
    .filter(({ box }) => box.height > 0 && box.bottom > 0 && box.top < innerHeight);
  const choices = seen(all(".picker fieldset")); // above all that comes and goes
  const places = choices.length > 0 ? choices : seen(steps.map(({ node }) => node));
  run();
  const still = places.find(({ node }) => node.getClientRects().length > 0);
  const moved = still ? still.node.getBoundingClientRect().top - still.box.top : 0;
  if (moved !== 0) {
    scrollBy(0, moved);
  }
}

// What has changed out of sight is brought into it.
function bringIntoView(node) {
  openAround(node);
  const { top, bottom } = node.getBoundingClientRect();
  if (top < 0 || bottom > one("#bar").getBoundingClientRect().top) {
    node.scrollIntoView({ block: "center" });
  }
}
