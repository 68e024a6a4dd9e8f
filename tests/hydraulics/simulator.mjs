// The same network in EPANET 2 (US EPA; the engine comes with the npm package epanet-js): what its hydraulics and its
// source tracing say of where the tracer is. EPANET 2.2 User Manual, chapter 3, "Water Age and Source Tracing": trace
// is the part, in percent, of the water that came from one node. It moves water as plugs, whole volumes at a time.
// Nothing here knows what the checker says.
import { FlowUnits, HeadLossType, LinkProperty, LinkType, NodeProperty, NodeType, Project, QualityType,
  TimeParameter, Option, InitHydOption, Workspace } from "epanet-js";

import { holds } from "./network.mjs";

/** Seconds: how finely the simulator moves the water. Every tolerance of a time comes from here. In a time step less
 *  must flow than the smallest pipe holds, or the simulator loses some. */
export const timeStep = 1;
/** A tap "shows its colour, at full strength" at this part of tracer, for at least `shownFor` litres. */
export const fullStrength = 0.999;
export const shownFor = 0.1; // L: what the checker takes for less than an operator could be taken in by

const workspace = new Workspace();
await workspace.loadModule();

/**
 * Draws through one tap after another, each for as long as its step says. Gives one record for each step:
 * {halfWay (s until half of what arrives is tracer), mass (s, by the balance of what has arrived; both from the start
 * of the step), share: Map from the name of a link to the part of tracer in it at the end, stopped (whether the end
 * came at all)}.
 */
export function simulate(net) {
  const project = new Project(workspace);
  project.init("net.rpt", "net.out", FlowUnits.LPM, HeadLossType.DW);
  const nodes = new Map();
  const node = (name) => {
    if (!nodes.has(name)) {
      const type = name === net.source ? NodeType.Reservoir : NodeType.Junction;
      const index = project.addNode(`n${nodes.size}`, type);
      nodes.set(name, index);
      // A source stands high enough that no pipe ever falls short: how much is drawn is given, not found.
      project.setNodeValue(index, NodeProperty.Elevation, type === NodeType.Reservoir ? 500 : 0);
    }
    return nodes.get(name);
  };
  const links = new Map();
  node(net.source);
  const label = (name) => `n${[...nodes.keys()].indexOf(name)}`;
  for (const link of net.links) {
    node(link.from);
    node(link.to);
    const type = { flap: LinkType.CVPipe, pump: LinkType.Pump }[link.sort] ?? LinkType.Pipe;
    const index = project.addLink(`l${links.size}`, type, label(link.from), label(link.to));
    links.set(link.name, index);
    if (link.sort === "pump") project.setLinkValue(index, LinkProperty.PumpPower, 0.1); // kW
    // The tracing gives a check valve no volume of its own, whatever its length.
    if (link.sort === "flap") project.setPipeData(index, 0.1, 20, 0.0015, 0);
    if (holds(link)) project.setPipeData(index, link.length, link.bore, 0.0015, 0); // m, mm, mm: drawn tubing
  }
  project.setQualityType(QualityType.Trace, "", "", label(net.source));
  project.setOption(Option.Tolerance, 0.001); // percent: pieces that differ by less may be taken as one
  project.setTimeParameter(TimeParameter.HydStep, timeStep);
  project.setTimeParameter(TimeParameter.QualStep, timeStep);
  project.setTimeParameter(TimeParameter.PatternStep, 1e6);
  project.setTimeParameter(TimeParameter.ReportStep, timeStep);
  project.setTimeParameter(TimeParameter.Duration, 1e7);
  project.openH();
  project.initH(InitHydOption.NoSave);
  project.openQ();
  project.initQ(InitHydOption.NoSave);
  const records = net.steps.map((step) => drawOne(project, net, step, nodes, links));
  project.closeQ();
  project.closeH();
  project.close();
  return records;
}

function drawOne(project, net, { tap, flow, atLeast, seenAt, shut }, nodes, links) {
  for (const { name, sort } of net.links) {
    if (sort === "valve") project.setLinkValue(links.get(name), LinkProperty.Status, shut.includes(name) ? 0 : 1);
  }
  const tapNode = nodes.get(tap.vertex);
  const seenNode = seenAt ? nodes.get(`${seenAt}.outlet`) : tapNode;
  project.setNodeValue(tapNode, NodeProperty.BaseDemand, flow);
  const perStep = (flow * timeStep) / 60; // L
  // A way that carries one part in a thousand would have been emptied by then: a thousand times all that there is.
  const all = net.links.filter(holds).reduce((sum, link) => sum + (link.bore ** 2 * link.length) / 1000, 0);
  const most = (1000 * all) / perStep;
  let halfWay = null;
  let mass = 0;
  let shown = 0;
  let steps = 0;
  let stopped = false;
  while (!stopped && steps < most) {
    project.runH();
    project.runQ();
    project.nextH();
    project.nextQ();
    const part = project.getNodeValue(seenNode, NodeProperty.Quality) / 100;
    ++steps;
    mass += (1 - part) * timeStep; // what arrives is told as the mean of the time step
    if (halfWay === null && part >= 0.5) halfWay = steps * timeStep;
    shown = part >= fullStrength ? shown + perStep : 0;
    stopped = shown > shownFor + perStep && steps * perStep >= (atLeast ?? 0);
  }
  const share = new Map();
  for (const link of net.links) {
    if (holds(link)) share.set(link.name, project.getLinkValue(links.get(link.name), LinkProperty.LinkQual) / 100);
  }
  project.setNodeValue(tapNode, NodeProperty.BaseDemand, 0);
  return { halfWay, mass, share, stopped };
}
