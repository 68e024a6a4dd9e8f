// A procedure that no page was made for: names of 500 characters with and without spaces, names that run from right to
// left, a step longer than a page, a caution of many lines, many short steps.

const long = (word) => word.repeat(Math.ceil(500 / word.length)).slice(0, 500).trimEnd();
const hebrew = "ברז הניקוז שליד הדלת (צפון) 12";
const arabic = "صمام الإغلاق <b>الرئيسي</b> & ١٢";

export function hostile() {
  const system = "Hostile"; // the first word of its name, which the head of a page keeps
  const notes = Array.from({ length: 90 }, (_, i) => `      note "Line ${i + 1}. ${"Look at it from all sides and feel it. ".repeat(3)}"`);
  const short = Array.from({ length: 40 }, (_, i) => `
    step "${i % 2 ? "Shut" : "Open"} the tap, time ${i + 1}" { set kitchen_tap to ${i % 2 ? "shut" : "open"} }`);
  const text = `
use water
system hut "${system} ${long("hut of many words ")}" {
  zone pit "${hebrew}"
  zone room "${long("unbroken")}"
  cover pit_lid "${long("lid ")}" at pit
  place sink "Sink" at room accepts drinking_water
  part stop_valve  : mains_stop "${arabic}" at pit behind pit_lid { delivers 4 bar }
  part pit_drain   : drain_cock "${hebrew}" at pit behind pit_lid
  part kitchen_tap : tap "${long("Tap of great length ")}" at room over sink
  run stop_valve.house - pit_drain.line    : copper_15 0.2 m  falls to pit_drain
  run stop_valve.house - kitchen_tap.water : copper_15 4.9 m  falls to stop_valve
}
procedure close_up "${hebrew} ${long("close up ")}" on hut {
  requires stop_valve is shut and pit_drain is shut and kitchen_tap is shut
  stage "${long("stage")}" {
    step "${long("title without end ")}" {
      warning "${long("Mind this, and that as well. ")}"
      set pit_lid to open
    }
    step "Measure" { record "${long("measure")}" as volume }
    step "${arabic}" {
      danger "${arabic} ${"خطر ".repeat(60)}"
      set kitchen_tap to open
    }
    step "LongerThanAPage" {
      caution "Read it to its end."
${notes.join("\n")}
      set kitchen_tap to shut
    }${short.join("")}
  }
}
`;
  return { text, long: { number: 4, title: "LongerThanAPage" }, system };
}
