// Runs before anything is painted, so that a dark sheet does not flash white at night. The rest is in view.js.
// A page without storage throws here; it then looks as the device says, and view.js tells what cannot be kept.
document.documentElement.classList.add("folding"); // until folds.js has folded what is
try {
  const kept = JSON.parse(localStorage.getItem("curbstop-view") || "{}");
  if (kept.theme === "bright" || kept.theme === "dark") {
    document.documentElement.dataset.theme = kept.theme;
  }
  if (kept.large === true) {
    document.documentElement.dataset.targets = "large";
  }
  if (kept.printAll === true) {
    document.documentElement.dataset.print = "all";
  }
} catch {
  // nothing kept, or nothing that can be read
}
