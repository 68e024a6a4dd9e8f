// What is under its heading until it is wanted (output/html_parts.h, html_fold), remedies until it has come to them among
// it. Paper knows nothing of it.
const folds = all(".fold").map((node) => {
  const head = one(":scope > .fold-head", node);
  const heading = one(":is(h2, h3)", head) ?? head;
  const button = document.createElement("button");
  button.type = "button";
  const words = document.createElement("span"); // one line of words, not a row of pieces
  words.append(...heading.childNodes);
  button.append(words);
  heading.append(button);
  return { node, head, button, remedy: node.matches(".in-case") };
});

function fold({ node, button }, folded) {
  node.classList.toggle("folded", folded);
  button.setAttribute("aria-expanded", String(!folded));
}

function foldAll() {
  for (const each of folds) {
    fold(each, true);
    each.button.addEventListener("click", () => fold(each, !each.node.classList.contains("folded")));
  }
  root.classList.remove("folding");
  openAround(document.getElementById(location.hash.slice(1)));
}

// Nothing that is ticked or filled in stays behind the heading of a remedy.
function openRemedies() {
  for (const each of folds) {
    if (each.remedy && underWay(each.node)) {
      fold(each, false);
    }
  }
}

function openAround(target) {
  for (const each of folds) {
    if (target && each.node.contains(target) && !each.head.contains(target)) {
      fold(each, false);
    }
  }
}

// A link to what is folded opens it first.
document.addEventListener("click", ({ target }) => {
  const link = target.closest?.('a[href^="#"]');
  if (link) {
    openAround(document.getElementById(link.hash.slice(1)));
  }
});
