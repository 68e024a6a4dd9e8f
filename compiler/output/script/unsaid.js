// Where lines of a step hang on what the reader has not said yet, the question is asked there again, with its answers.
const asking = steps.map(({ node }) => {
  const hanging = all(".line[data-when]", node).filter((line) => line.closest(".step") === node);
  return { node, hanging, box: null };
}).filter(({ hanging }) => hanging.length > 0);

// The options that a line waits for: those without which it cannot be told whether it applies.
function unsaidOf({ hanging }) {
  const has = state.options.map((each) => (each === "unknown" ? null : each === "has"));
  const open = hanging.filter((line) => applies(line.dataset.when, has) === null);
  const named = new Set(open.flatMap((line) => line.dataset.when.split(" ")));
  return options.filter((option, i) => has[i] === null && named.has(String(i)));
}

function answerHere({ box }, value) {
  const radio = one(`input[value="${value}"]`, box);
  radio.checked = true;
  radio.dispatchEvent(new Event("change", { bubbles: true }));
}

function ask(option) {
  const line = document.createElement("p");
  line.append(text("ask-option", { option: option.label }));
  for (const [value, name] of [["has", "has"], ["has_not", "lacks"]]) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = text(name);
    button.setAttribute("aria-label", `${option.label}: ${text(name)}`);
    button.addEventListener("click", () => answerHere(option, value));
    line.append(" ", button);
  }
  return line;
}

function showUnsaid() {
  for (const each of asking) {
    const unsaid = unsaidOf(each);
    const names = unsaid.map(({ name }) => name).join(" ");
    if ((each.box?.dataset.options ?? "") === names) {
      continue;
    }
    const focused = each.box?.contains(document.activeElement);
    each.box?.remove();
    each.box = null;
    if (unsaid.length > 0) {
      each.box = document.createElement("div");
      each.box.className = "unsaid";
      each.box.dataset.options = names;
      each.box.append(...unsaid.map(ask));
      one("h3", each.node).after(each.box);
    }
    if (focused) { // what had the focus is gone
      const heading = one("h3", each.node);
      heading.tabIndex = -1;
      heading.focus({ preventScroll: true });
    }
  }
}
