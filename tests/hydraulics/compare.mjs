// What the checker says is where, against EPANET's source tracing, on random pipework.
//
//     node run.mjs CURBSTOP [--count 200] [--seed 1] [--keep FILE]
//
// In trees, after each draw:
//   when      the tracer has reached the tap (or the glass) after volume on the way / flow, with the volumes that the
//             checker tells, of the pockets that it did not count as swept before;
//   swept     what the checker counts as swept (no more than traces of water left) is what EPANET finds full of tracer;
//   reached   where the checker says that tracer may be, there is some, and nowhere else.
// In networks with loops, where water takes several ways at different speeds and valves are shut and opened between
// draws, the checker may be more cautious than the truth, never less: EPANET's parts lie within its bounds.
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";

import { asText, holds, makeNetwork, wayTo } from "./network.mjs";
import { simulate, timeStep, fullStrength } from "./simulator.mjs";

const traces = 0.01; // compiler/reference/proofs.md, Contents: "traces are at most 1 %"
// What the simulator may leave where it says `fullStrength`, and what its sums leave in still water.
const rounding = 1 - fullStrength + 1e-6;

const { values: given, positionals } = parseArgs({
  options: {
    count: { type: "string", default: "200" },
    seed: { type: "string", default: "1" },
    keep: { type: "string" }, // where the last network stays
  },
  allowPositionals: true,
});
const curbstop = positionals[0];

function run(words) {
  const done = spawnSync(curbstop, words, { encoding: "utf8" });
  if (done.status !== 0) {
    throw new Error(`curbstop ${words.join(" ")}: exit ${done.status}\n${done.stdout}${done.stderr}`);
  }
  return done.stdout;
}

/** What the checker says of each link after a step: {volume (L), water, tracer: the greatest parts}. */
function told(net, file, step) {
  const trace = JSON.parse(run(["trace", file, "--after", String(step), "--as", "json"]));
  const pockets = new Map(trace.pockets.map((pocket) => [pocket.label, pocket]));
  // "pump.delivery" is labelled `pump (delivery)`, the only port of a part by the part's label alone.
  const words = (vertex) => {
    const [part, port] = vertex.split(".");
    return port === undefined || part === "mains" || part.startsWith("tap_") ? part : `${part} (${port})`;
  };
  const result = new Map();
  for (const link of net.links) {
    if (!holds(link)) continue;
    const label = link.sort === "run" ? `pipe from ${words(link.from)} to ${words(link.to)}` : link.name;
    const pocket = pockets.get(label);
    if (!pocket) throw new Error(`the checker tells of no pocket \`${label}\``);
    const most = (fluid) => pocket.fluids.find((each) => each.fluid === fluid)?.most ?? 0;
    result.set(link.name, { volume: pocket.volume_L, water: most("Water"), tracer: most("Tracer") });
  }
  return result;
}

const found = { networks: 0, times: 0, swept: 0, reached: 0, untouched: 0, cautious: 0 };

/** What differs, in words. */
function differences(net, file) {
  const wrong = [];
  const records = simulate(net);
  let before = told(net, file, 1); // the step that switches the source on
  let exact = !net.loops;
  for (const [i, step] of net.steps.entries()) {
    const say = (words) => wrong.push(`draw ${i + 1} through ${step.tap.name}: ${words}`);
    const record = records[i];
    if (!record.stopped) say("the simulator never sees the tracer arrive");
    const after = told(net, file, i + 2);
    if (exact) when(net, step, record, before, say);
    // Beyond the glass where somebody watches, the checker knows only that some may have passed.
    const way = net.loops ? [] : wayTo(net, step.tap.vertex).map((link) => link.name);
    const beyond = new Set(step.seenAt ? way.slice(way.indexOf(step.seenAt) + 1) : []);
    for (const [name, part] of record.share) {
      const { water, tracer } = after.get(name);
      const bounds = `the checker says tracer at most ${tracer}, water at most ${water}; EPANET finds ${part} tracer`;
      if (part > tracer + rounding || 1 - part > water + rounding) say(`${name}: ${bounds}`);
      const swept = water <= traces;
      const reached = tracer > traces;
      if (exact && !beyond.has(name)) {
        if (swept !== part > 1 - rounding) say(`${name} is ${swept ? "" : "not "}counted as swept: ${bounds}`);
        if (reached !== part > rounding) say(`${name} is ${reached ? "" : "not "}counted as reached: ${bounds}`);
      }
      found.swept += swept ? 1 : 0;
      found.reached += reached ? 1 : 0;
      found.untouched += reached ? 0 : 1;
      found.cautious += !swept && part > 1 - rounding ? 1 : 0;
    }
    before = after;
  }
  return wrong;
}

/** V / Q, with the checker's own volumes, of what had not been swept yet. */
function when(net, step, record, before, say) {
  const whole = wayTo(net, step.tap.vertex).filter(holds);
  const last = step.seenAt ? whole.findIndex((link) => link.name === step.seenAt) : whole.length - 1;
  const way = whole.slice(0, last + 1);
  const unswept = way.map(({ name }) => before.get(name)).filter((pocket) => pocket.water > traces);
  const volume = unswept.reduce((sum, pocket) => sum + pocket.volume, 0);
  const due = (volume / step.flow) * 60; // s
  // The balance of what has arrived loses nothing to the time step, only what pieces that are taken as one differ by:
  // a hundredth of a time step. The front itself is told to a time step, and mixed within one wherever pipes meet.
  const words = `${volume.toFixed(3)} L at ${step.flow} L/min take ${due.toFixed(2)} s; EPANET: `;
  if (Math.abs(record.mass - due) > timeStep / 100) say(`${words}${record.mass.toFixed(2)} s by what has arrived`);
  if (Math.abs(record.halfWay - due) > (way.length + 1) * timeStep) {
    say(`${words}half has come after ${record.halfWay} s`);
  }
  found.times += volume > 0 ? 1 : 0;
}

const folder = mkdtempSync(join(tmpdir(), "curbstop-hydraulics-"));
let failed = 0;
try {
  for (let seed = Number(given.seed); seed < Number(given.seed) + Number(given.count); ++seed) {
    const net = makeNetwork(seed, seed % 2 === 0);
    const file = given.keep ?? join(folder, "net.curb");
    writeFileSync(file, asText(net));
    const wrong = differences(net, file);
    ++found.networks;
    if (wrong.length > 0) {
      ++failed;
      console.log(`seed ${seed}${net.loops ? ", with loops" : ""}:\n  ${wrong.join("\n  ")}\n`);
    }
  }
} finally {
  rmSync(folder, { recursive: true });
}
console.log(JSON.stringify(found));
// A comparison that never sees one of these compares nothing.
for (const [what, count] of Object.entries(found)) {
  if (count === 0 && Number(given.count) >= 30) {
    console.log(`one-sided: nothing was found for \`${what}\``);
    ++failed;
  }
}
process.exit(failed > 0 ? 1 : 0);
