// What is kept on the device. Storage may be missing, refused (a page from a file, a private window) or full: then it is
// said once, plainly, and the sheet goes on working until it is closed.
const sheetKey = ["curbstop-record", sheet.system, sheet.procedure, ""].join(" ");
const recordKey = sheetKey + sheet.contentVersion;
const undoKey = `${recordKey} undo`;

function readKept(key) {
  try {
    return localStorage.getItem(key);
  } catch {
    complain("keeps-nothing");
    return null;
  }
}

function keep(key, value) {
  try {
    localStorage.setItem(key, value);
  } catch {
    complain("keeps-nothing");
  }
}

// Records of other versions of this sheet, as texts.
function otherKept() {
  try {
    return Object.keys(localStorage)
      .filter((key) => key.startsWith(sheetKey) && /^[0-9a-f]+$/.test(key.slice(sheetKey.length)) && key !== recordKey)
      .map((key) => localStorage.getItem(key));
  } catch {
    return [];
  }
}

// A lasting complaint, beside what is announced in passing.
function complain(name, values) {
  const place = one("#complaint");
  const words = text(name, values);
  if (place.textContent !== words) {
    place.textContent = words;
    place.hidden = false;
  }
}

// A record that was kept and cannot be read is moved aside and not written over.
function setAside(source, error) {
  keep(`${recordKey} unreadable`, source);
  complain("kept-unreadable", { why: why(error) });
}
