// What the page says of itself: what it is the sheet of, what can be ticked and filled in, and the texts that are shown.
// The script is one module made of the files of this folder, in the order of compiler/CMakeLists.txt. It holds no words
// of its own, writes text only (never markup), and fetches nothing.
const root = document.documentElement;
const all = (selector, within = document) => [...within.querySelectorAll(selector)];
const one = (selector, within = document) => within.querySelector(selector);
const main = one("main");

// system, systemLabel, procedure, procedureLabel, contentVersion, program, follows
const sheet = { ...main.dataset };

const texts = new Map(all("[data-text]", one("#texts").content).map((node) => [node.dataset.text, node.textContent]));

// The text of that name with its {places} filled in; each value keeps its own direction (Unicode, UAX 9: FSI and PDI).
function text(name, values = {}) {
  return texts.get(name).replace(/\{(\w+)\}/g, (place, key) => (key in values ? `\u2068${values[key]}\u2069` : place));
}

const squeezed = (words) => words.replace(/\s+/g, " ").trim();

// Everything that has a place in the record, by its id, in the order of the page.
const items = new Map(all("[data-id]").map((input) => {
  const item = {
    id: input.dataset.id,
    kind: input.type === "checkbox" ? "tick" : "field",
    input,
    chooser: null,
    unmeasured: null, // the box that says so, where something is to be measured
    isNumber: "number" in input.dataset,
    get moment() { // a day or the time of a day, as record.js tells them
      return moments[input.type] ?? null;
    },
    units: [],
    // What stands beside it, and the title of its step; read when it is asked for, as there may be thousands.
    get text() {
      return squeezed(input.getAttribute("aria-label") ?? one("span", input.closest("label")).textContent);
    },
    get step() {
      const step = input.closest(".step");
      return step ? squeezed(one(".title", step).textContent) : null;
    },
  };
  if (item.kind === "field") {
    item.chooser = one("select", input.closest(".field"));
    item.unmeasured = one("[data-not-measured]", input.closest(".field"));
    item.units = item.chooser ? all("option", item.chooser).map(({ value }) => value) : [];
    if (!item.chooser && input.dataset.unit) {
      item.units = [input.dataset.unit];
    }
  }
  return [item.id, item];
}));

const options = all(".picker [data-option]").map((box) => ({
  name: box.dataset.option,
  label: squeezed(one("legend", box).textContent),
  box,
}));

// Times and numbers as the language of the page writes them.
const clock = (date) => date.toLocaleTimeString(root.lang, { hour: "2-digit", minute: "2-digit" });
const clockAndDay = (date) =>
  date.toDateString() === new Date().toDateString()
    ? clock(date)
    : date.toLocaleString(root.lang, { weekday: "short", hour: "2-digit", minute: "2-digit" });

// What is said aloud and shown in the bar, for as long as it takes to read; then the bar tells again where one is.
// Whatever it says can be seen on the page, so that nothing is lost with it. The same words twice are said twice: the
// node is a new one each time.
const toRead = 8000; // milliseconds
let saidLast = null;
let saidAt = null; // where the page stood then, once it has come to rest

function announce(words) {
  const line = document.createElement("span");
  line.textContent = words;
  one("#said").replaceChildren(line);
  clearTimeout(saidLast);
  saidAt = null;
  setTimeout(() => {
    saidAt = scrollY;
  }, 200);
  const fade = () => {
    if (matchMedia("(hover: hover)").matches && one("#bar").matches(":hover")) { // a finger leaves its hover behind
      saidLast = setTimeout(fade, toRead); // somebody may still be reading
    } else {
      one("#said").replaceChildren();
    }
  };
  saidLast = setTimeout(fade, toRead);
}

// What was said of something else is no longer to be read when something new has been done.
const hush = () => one("#said").replaceChildren();

// Nor is it of what one has left behind.
function hushElsewhere() {
  if (saidAt !== null && Math.abs(scrollY - saidAt) > innerHeight) {
    hush();
  }
}

// What is quoted in the two lines of the bar, on a telephone too.
const shortened = (words) => (words.length > 36 ? `${words.slice(0, 35).trimEnd()}…` : words);
