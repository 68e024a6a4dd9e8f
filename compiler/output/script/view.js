// How the page looks: bright, dark or as the device says; large targets for gloves. Kept for all sheets of the device.
const viewKey = "curbstop-view";

function showView() {
  const theme = root.dataset.theme ?? "device";
  one(`input[name="theme"][value="${theme}"]`).checked = true;
  one("#large-targets").checked = root.dataset.targets === "large";
}

function changeView() {
  const theme = one('input[name="theme"]:checked').value;
  const large = one("#large-targets").checked;
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
  keep(viewKey, JSON.stringify({ theme, large }));
}

// What gets the focus must not end up under the bar (WCAG 2.2, 2.4.11).
function keepClearOfBar() {
  const bar = one("#bar");
  new ResizeObserver(() => {
    root.style.scrollPaddingBlockEnd = `${bar.offsetHeight + 8}px`;
  }).observe(bar);
}
