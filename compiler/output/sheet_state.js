// Keeps the drawings of the sheet as things stand after the step that was done last. The page says which with a
// `sheet:step` event on the document, whose detail.step is the number of that step; 0 is the start. What is written
// comes from the block with the id `drawing-states` (output/live_states.h); this script holds no words.
(() => {
  const block = document.getElementById("drawing-states");
  if (!block) {
    return;
  }
  const states = JSON.parse(block.textContent);
  // A pipe from one place to another is in two drawings.
  const places = new Map();
  for (const element of document.querySelectorAll("[data-at]")) {
    const id = element.getAttribute("data-at");
    places.set(id, [...(places.get(id) ?? []), element]);
  }
  const valves = new Map();
  for (const element of document.querySelectorAll("[data-sign]")) {
    const id = element.getAttribute("data-sign");
    valves.set(id, [...(valves.get(id) ?? []), element]);
  }
  const caption = document.getElementById("drawing-caption");

  // The letters of a drawing below it, out of the hidden list of all of them.
  const key = document.querySelector(".drawing .drawing-key, .drawing-key");
  const signs = new Set([...(key?.children ?? [])].map((each) => each.dataset.sign));
  const explain = () => {
    if (!key) {
      return;
    }
    for (const list of document.querySelectorAll(".drawing .letters")) {
      const words = new Set();
      for (const element of list.closest(".one").querySelectorAll("[data-at]")) {
        // Last of all that is written, after how a part stands.
        for (const letter of element.textContent.split(" ").reverse()) {
          if (letter !== "P" && !signs.has(letter)) {
            break;
          }
          words.add(letter);
        }
      }
      list.replaceChildren(...[...key.children].filter((each) => words.has(each.dataset.sign))
        .map((each) => each.cloneNode(true)));
    }
  };

  const show = (step) => {
    const now = new Map();
    for (const changes of states.steps.slice(0, step + 1)) {
      for (let i = 0; i + 2 < changes.length; i += 3) {
        now.set(changes[i], [states.texts[changes[i + 1]], changes[i + 2] === 1]);
      }
    }
    for (const [id, elements] of places) {
      const [text, pressed] = now.get(id) ?? ["", false];
      for (const element of elements) {
        element.textContent = text;
        // Words longer than their card are set narrower, not cut off.
        const room = Number(element.getAttribute("data-room"));
        if (room > 0 && text.length * 6.5 > room) {
          element.setAttribute("textLength", room);
          element.setAttribute("lengthAdjust", "spacingAndGlyphs");
        } else {
          element.removeAttribute("textLength");
        }
        element.parentNode.classList.toggle("pressed", pressed);
      }
    }
    const stands = new Map();
    for (const changes of states.valves.slice(0, step + 1)) {
      for (let i = 0; i + 1 < changes.length; i += 2) {
        stands.set(changes[i], states.signs[changes[i + 1]]);
      }
    }
    for (const [id, sign] of stands) {
      for (const element of valves.get(id) ?? []) {
        element.querySelectorAll("path").forEach((path, i) => path.setAttribute("d", sign[i]));
        element.querySelector(".doubt").textContent = sign[4];
      }
    }
    explain();
    if (caption) {
      caption.textContent = states.captions[step > 0 ? 1 : 0].replace("{step}", String(step));
    }
  };

  document.addEventListener("sheet:step", (event) => {
    const step = Number(event.detail?.step);
    if (Number.isInteger(step) && step >= 0 && step < states.steps.length) {
      show(step);
    }
  });
  show(0);
})();
