// Hides what does not apply to the reader's variant, and counts what is hidden. Steps keep their numbers.
const conditional = all("[data-when]").map((node) => ({ node, when: node.dataset.when }));
const isHidden = (node) => node.closest("[hidden]") !== null;

// What is nothing but its members, inmost first: hidden with the last of them.
const groups = [
  ...all(".line > .lines").reverse().map((list) => [list.parentElement, [...list.children]]),
  ...all(".step").map((step) => [step, all(":scope > .lines > .line", step)]),
  ...all(".box").reverse().map((box) => [box, [...box.children].filter((child) => child.matches(".step, .box"))]),
  ...all(".stage").map((stage) => [stage, [...stage.children].filter((child) => child.matches(".step, .box, .lines"))]),
  ...all(".card").map((card) => [card, all(":scope > ul > li", card)]),
  ...all(".tags").map((tags) => [tags, all(".tag-slip", tags)]),
  ...all(".records").map((records) => [records, all("tbody tr", records)]),
  ...all(".standing table").map((table) => [table, all("tbody tr", table)]),
  ...all(".standing").map((tables) => [tables, all("table", tables)]),
].filter(([, members]) => members.length > 0);

const ownCondition = new Map(conditional.map(({ node, when }) => [node, when]));

function hideWhatDoesNotApply() {
  const has = state.options.map((each) => (each === "unknown" ? null : each === "has"));
  for (const drawn of all("[data-fitted]")) {
    const fitted = applies(drawn.dataset.fitted, has);
    drawn.classList.toggle("fitted", fitted === true);
    drawn.classList.toggle("not-fitted", fitted === false);
  }
  const rules = (node) => ownCondition.has(node) && applies(ownCondition.get(node), has) === false;
  for (const { node } of conditional) {
    node.hidden = rules(node);
  }
  for (const [group, members] of groups) {
    group.hidden = rules(group) || members.every((member) => member.hidden);
  }
  for (const table of all(".standing")) {
    one(`#${table.dataset.heading}`).hidden = table.hidden;
    const fold = table.closest(".fold");
    if (fold) {
      fold.hidden = table.hidden;
    }
  }
  for (const link of all("nav > ol a")) {
    const part = document.getElementById(link.hash.slice(1)).closest(".stage, .preparation");
    link.parentElement.hidden = part.hidden;
  }
  sayWhereToGo();
  countHidden();
}

// Where a step that says "go to" is hidden, the next step that is not takes it over, unless it says so itself.
function sayWhereToGo() {
  let latest = null;
  for (const node of all(".go, .step")) {
    if (node.matches(".go")) {
      node.hidden = true;
      latest = node;
    } else if (!isHidden(node) && latest) {
      latest.hidden = false;
      latest = null;
    }
  }
}

function countHidden() {
  const hidden = (selector) => all(selector).filter(isHidden);
  const counts = {
    steps: hidden(".step").length,
    lines: all(".line[hidden]").filter((line) => !isHidden(line.parentElement)).length,
    rows: hidden(".standing tbody tr, .records tbody tr").length,
    items: hidden(".card > ul > li, .tag-slip").length,
  };
  const any = Object.values(counts).some((count) => count > 0);
  for (const place of all("[data-hidden-count]")) {
    place.textContent = any ? text("hidden", counts) : text("nothing-hidden");
    place.hidden = place.dataset.hiddenCount === "if-any" && !any;
  }
  return counts;
}

// What a new answer leaves behind: steps that were done or not there before, and have to be done now, among those that
// one had passed.
function chooseVariant(event) {
  const id = event.target.closest("[data-option]").dataset.option;
  const [known, done] = [new Set(counted), new Set(counted.filter((step) => step.done))];
  commit([{ kind: "option", id, before: before("option", id), after: event.target.value }]);
  const last = counted.findLastIndex((step) => step.done);
  const anew = counted.filter((step, i) => !step.done && (done.has(step) || (!known.has(step) && i < last)));
  const hidden = all(".step").filter(isHidden).length;
  announce([
    ...(anew.length > 0 ? [text("option-opens", { steps: numbersOf(anew) })] : []),
    ...(hidden > 0 ? [text("hidden-steps", { steps: hidden })] : anew.length === 0 ? [text("option-taken")] : []),
  ].join(" "));
}

// On paper, and without script, the options are boxes to tick.
function tickOptionsForPaper() {
  all("[data-option-tick]").forEach((box, i) => {
    box.checked = state.options[i] === "has";
    const mark = one(".state-word", box.parentElement);
    mark.textContent = state.options[i] === "has_not" ? text("has-not") : "";
  });
}
