// How the page looks: bright, dark or as the device says; large targets for gloves; what goes on paper. Kept for all sheets of the device.
const viewKey = "curbstop-view";

function showView() {
  const theme = root.dataset.theme ?? "device";
  one(`input[name="theme"][value="${theme}"]`).checked = true;
  one("#large-targets").checked = root.dataset.targets === "large";
  one("#large-soon").checked = root.dataset.targets === "large";
  one("#print-all").checked = root.dataset.print === "all";
}

function changeView() {
  const theme = one('input[name="theme"]:checked').value;
  const large = one("#large-targets").checked;
  const printAll = one("#print-all").checked;
  if (theme === "device") {
    delete root.dataset.theme;
  } else {
    root.dataset.theme = theme;
  }
  if (large) {
    root.dataset.targets = "large";
  } else {
    delete root.dataset.targets;
  }
  if (printAll) {
    root.dataset.print = "all";
  } else {
    delete root.dataset.print;
  }
  one("#large-soon").checked = large;
  keep(viewKey, JSON.stringify({ theme, large, printAll }));
}

// What gets the focus must not end up under the bar (WCAG 2.2, 2.4.11). The room is a margin of what can get it, not a
// padding of the page: that would move the page whenever one of the bar's own buttons does.
function keepClearOfBar() {
  const bar = one("#bar");
  new ResizeObserver(() => {
    root.style.setProperty("--bar", `${bar.offsetHeight + 8}px`);
  }).observe(bar);
  // Not every browser keeps to the margin when what gets the focus can be seen in part.
  document.addEventListener("focusin", ({ target }) => {
    const under = target.getBoundingClientRect().bottom + 8 - bar.getBoundingClientRect().top;
    if (under > 0 && !bar.contains(target) && target.matches("a, button, input, select, summary")) {
      scrollBy(0, Math.min(under, Math.max(target.getBoundingClientRect().top, 0)));
    }
  });
}
