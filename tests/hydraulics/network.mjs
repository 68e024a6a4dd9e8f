// Random pipework and a procedure that draws a tracer through it to one tap after another: the same thing twice, as a
// `.curb` file and as a list of links for the simulator. Nothing here knows what either of them makes of it.

/** Random numbers that are the same everywhere: xorshift32 (G. Marsaglia, "Xorshift RNGs", J. Stat. Softw. 8, 2003). */
export class Random {
  constructor(seed) {
    this.state = (seed * 2654435761 + 1) >>> 0 || 1;
    for (let i = 0; i < 8; ++i) this.next();
  }
  next() {
    this.state ^= this.state << 13;
    this.state >>>= 0;
    this.state ^= this.state >>> 17;
    this.state ^= this.state << 5;
    this.state >>>= 0;
    return this.state / 2 ** 32;
  }
  /** A whole number from `low` to `high`. */
  whole(low, high) {
    return low + Math.floor(this.next() * (high - low + 1));
  }
  pick(list) {
    return list[this.whole(0, list.length - 1)];
  }
  chance(part) {
    return this.next() < part;
  }
}

const bores = [8, 10, 13, 20]; // mm
const fittings = { filter: 0.3, glass: 0.1, check: 0.05, valve: 0.05 }; // L: what the body of each holds

/** Litres in a pipe: pi/4 d^2 l, with d in mm and l in m. Here only to size what is drawn, never to judge. */
const litres = (bore, length) => ((Math.PI / 4) * bore * bore * length) / 1000;

/**
 * A network. `links`: {name, from, to (vertices are strings), sort ("run", "body", "valve", "flap" of a check valve,
 * "pump"), and where it holds something bore (mm), length (m)}, from the source outwards where it is a tree; `taps`:
 * {name, vertex}; `steps`: {tap, flow (L/min), atLeast (L or null), seenAt (name of a glass or null), shut (names of
 * valves)}.
 */
export function makeNetwork(seed, loops) {
  const random = new Random(seed);
  const hose = random.chance(0.5); // between the vessel and the pump
  const net = { seed, loops, hose, links: [], fittings: [], taps: [], tees: new Map() };
  const join = (vertex, name) => net.tees.set(vertex, [...(net.tees.get(vertex) ?? []), name]);
  const size = () => ({ bore: random.pick(bores), length: random.whole(5, 80) / 10 });

  const addRun = (from, to) => {
    const link = { name: `run_${net.links.length}`, sort: "run", from, to, ...size() };
    net.links.push(link);
    return link;
  };
  // A pipe, half of the time with something in the middle.
  const addWay = (from, to, number, valved = false) => {
    if (!valved && random.chance(0.5)) {
      addRun(from, to);
      return;
    }
    const kind = valved ? "valve" : random.pick(["filter", "glass", "check"]);
    const name = `${kind}_${number}`;
    net.fittings.push({ name, kind });
    addRun(from, `${name}.inlet`);
    let at = `${name}.inlet`;
    if (kind === "check") {
      net.links.push({ name: `${name}.flap`, sort: "flap", from: at, to: `${name}.flap` });
      at = `${name}.flap`;
    }
    // A body is a pipe of 20 mm bore that holds as much.
    const length = fittings[kind] / litres(20, 1);
    net.links.push({ name, sort: valved ? "valve" : "body", from: at, to: `${name}.outlet`, bore: 20, length });
    addRun(`${name}.outlet`, to);
  };

  // The foot in the vessel is a flap, so that no pipe begins at the vessel itself and with what is in it.
  net.source = "canister";
  const foot = hose ? "siphon.line" : "pump.suction";
  net.links.push({ name: "foot", sort: "flap", from: net.source, to: foot });
  if (hose) addRun(foot, "pump.suction");
  net.links.push({ name: "pump", sort: "pump", from: "pump.suction", to: "pump.delivery" });

  // Tees 0 to inner - 1, each hanging from one before it; then a tap where a tee has no second way on, and some more.
  const inner = random.whole(2, 6);
  const onward = Array(inner).fill(0);
  let number = 0;
  addWay("pump.delivery", "tee_0", number++);
  addRun("mains.house", hose ? "pump.suction" : "pump.delivery"); // what the pipes hold at first came from here
  for (let i = 1; i < inner; ++i) {
    const parent = random.whole(0, i - 1);
    ++onward[parent];
    addWay(`tee_${parent}`, `tee_${i}`, number++, loops && random.chance(0.5));
  }
  if (loops) {
    for (let i = random.whole(1, 3); i > 0; --i) {
      const a = random.whole(0, inner - 1);
      const b = (a + random.whole(1, inner - 1)) % inner;
      addWay(`tee_${Math.min(a, b)}`, `tee_${Math.max(a, b)}`, number++, random.chance(0.7));
    }
  }
  for (let i = 0; i < inner; ++i) {
    for (let left = onward[i] === 0 ? random.whole(1, 2) : random.whole(0, 1); left > 0; --left) {
      const name = `tap_${net.taps.length}`;
      net.taps.push({ name, vertex: `${name}.water` });
      addWay(`tee_${i}`, `${name}.water`, number++);
    }
  }

  const total = net.links.reduce((sum, link) => sum + (holds(link) ? litres(link.bore, link.length) : 0), 0);
  const glasses = net.fittings.filter((fitting) => fitting.kind === "glass");
  net.steps = [];
  for (let left = random.whole(1, loops ? 5 : 3); left > 0; --left) {
    const atLeast = loops && random.chance(0.5) ? Math.ceil(total * random.pick([0.5, 1, 2, 3])) : null;
    const step = { tap: random.pick(net.taps), flow: random.whole(6, 14) / 10, atLeast, seenAt: null };
    // Which valves are shut while it is drawn; none where that would leave the tap dry.
    step.shut = net.links.filter((link) => link.sort === "valve" && random.chance(0.4)).map((link) => link.name);
    if (!leadsTo(net, step.tap.vertex, step.shut)) step.shut = [];
    net.steps.push(step);
  }
  // In a tree the last flow may be seen to arrive at a glass on its way, and is then stopped there.
  const last = net.steps.at(-1);
  if (!loops && random.chance(0.5)) {
    const way = wayTo(net, last.tap.vertex);
    last.seenAt = glasses.find((glass) => way.some((link) => link.name === glass.name))?.name ?? null;
  }
  return net;
}

/** Whether water gets from the source to a vertex with these valves shut. */
function leadsTo(net, vertex, shut) {
  const reached = new Set([net.source]);
  for (const at of reached) {
    for (const link of net.links.filter((each) => !shut.includes(each.name))) {
      if (link.from === at) reached.add(link.to);
      if (link.to === at && link.sort !== "flap" && link.sort !== "pump") reached.add(link.from);
    }
  }
  return reached.has(vertex);
}

/** Whether a link holds anything. */
export const holds = (link) => link.length !== undefined;

/** The links from the source to a vertex of a tree, the first one first. */
export function wayTo(net, vertex) {
  const way = [];
  for (let at = vertex; at !== net.source; ) {
    const link = net.links.find((each) => each.to === at && each.from !== "mains.house");
    way.unshift(link);
    at = link.from;
  }
  return way;
}

const kinds = `fluid water "Water" { category 1 }
fluid tracer "Tracer" { category 2  shows "its colour, at full strength" }
kind mains { port house  position shut { }  position open { supplies water at house up to 3 bar } }
kind siphon { end foot "foot" fits siphon may dip  port line  always { foot <-> line } }
kind pump {
  port suction, delivery
  position shut { }
  position open { lifts suction -> delivery up to 3 bar with own switch }
}
kind dipped_pump {
  end suction "suction" fits siphon may dip
  port delivery
  position shut { }
  position open { lifts suction -> delivery up to 3 bar with own switch }
}
kind tap { port water  position shut { }  position open { water ~> below } }
kind filter { port inlet, outlet  always { inlet <-> outlet }  body 300 mL }
kind glass { port inlet, outlet  always { inlet <-> outlet }  body 100 mL  sight glass }
kind valve { port inlet, outlet  position shut { }  position open { inlet <-> outlet }  body 50 mL }
kind check { port inlet, outlet  always { inlet -> outlet }  body 50 mL }
`;

/** The network and its procedure in the language. Labels are names, so that pockets are found by them. */
export function asText(net) {
  const lines = [kinds];
  for (const bore of bores) lines.push(`pipe bore_${bore} "bore ${bore}" { bore ${bore} mm }`);
  const part = (name, kind, more = "") => lines.push(`  part ${name} : ${kind} "${name}" at yard${more}`);
  lines.push('system net "net" {', '  zone yard "yard"', '  place gully "gully" at yard accepts water, tracer');
  part("mains", "mains");
  lines.push('  vessel canister "canister" 5 m3 accepts tracer filled with tracer');
  if (net.hose) part("siphon", "siphon");
  part("pump", net.hose ? "pump" : "dipped_pump");
  for (const fitting of net.fittings) part(fitting.name, fitting.kind);
  for (const tap of net.taps) part(tap.name, "tap", " over gully");
  const vertices = new Set(net.links.flatMap((link) => [link.from, link.to]));
  for (const vertex of vertices) if (vertex.startsWith("tee_")) lines.push(`  tee ${vertex}`);
  for (const link of net.links) {
    if (link.sort === "run") lines.push(`  run ${link.from} - ${link.to} : bore_${link.bore} ${link.length} m`);
  }
  lines.push("}", 'procedure draw "draw" on net {', "  requires mains is shut and pump is shut");
  lines.push(`  requires ${net.hose ? "siphon.foot" : "pump.suction"} is in canister`);
  for (const tap of net.taps) lines.push(`  requires ${tap.name} is shut`);
  const valves = net.links.filter((link) => link.sort === "valve").map((link) => link.name);
  for (const valve of valves) lines.push(`  requires ${valve} is shut`);
  lines.push('  stage "Stage" {', '    step "On" { set pump to open }');
  for (const { tap, atLeast, seenAt, shut } of net.steps) {
    const more = (atLeast ? ` at least ${atLeast} L` : "") + (seenAt ? ` seen at ${seenAt}` : "");
    lines.push('    step "Draw" {');
    for (const valve of valves) lines.push(`      set ${valve} to ${shut.includes(valve) ? "shut" : "open"}`);
    lines.push(`      set ${tap.name} to open`);
    lines.push(`      flow canister to ${tap.name} until shows tracer "its colour"${more}`);
    lines.push(`      set ${tap.name} to shut\n    }`);
  }
  lines.push("  }", "}", "");
  return lines.join("\n");
}
