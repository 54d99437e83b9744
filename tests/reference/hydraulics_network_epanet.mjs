// Makes hydraulics_network_epanet.txt: pipe networks with the flows that EPANET finds, for hydraulics_network_test.py.
//   npm install epanet-js@0.9.0 && node hydraulics_network_epanet.mjs > hydraulics_network_epanet.txt
//
// Both programs get the same formulas: a link is 1 mm of pipe with a loss coefficient K, beside which wall friction
// (Swamee-Jain there, Colebrook-White here) vanishes; pump curves are straight between four or more points. EPANET
// writes 8/(g pi^2) as 0.02517 in feet; K is scaled by what that differs from standard gravity.
import { Project, Workspace } from "epanet-js";

const scale = 8 / ((9.80665 / 0.3048) * Math.PI ** 2) / 0.02517;
let seed = 1;
const random = () => (seed = (seed * 48271) % 2147483647) / 2147483647;
const curve = [[0, 4], [1, 3.6], [2, 2.8], [3, 1.5], [4, 0]]; // L/s, m

class Network {
  constructor(name) { Object.assign(this, { name, nodes: [], links: [] }); }
  surface(level) { return this.nodes.push({ kind: "surface", value: level }) - 1; }
  junction(demand = 0) { return this.nodes.push({ kind: "junction", value: demand }) - 1; }
  pipe(from, to, bore, K, check = false) { this.links.push({ kind: check ? "check" : "pipe", from, to, bore, K }); }
  pump(from, to, size = 1, speed = 1) { this.links.push({ kind: "pump", from, to, bore: size, K: speed }); }
}

function manifold(name, tanks, { pumps = 1, speed = 1, ring = false, rise = 1.2 } = {}) {
  const net = new Network(name), sump = net.surface(0), head = net.junction();
  for (let p = 0; p < pumps; ++p) {
    const behind = net.junction();
    net.pump(sump, behind, tanks / 4, speed);
    net.pipe(behind, head, 50, 4, true);
  }
  let last = head;
  for (let t = 0; t < tanks; ++t) {
    const tee = net.junction();
    net.pipe(last, tee, 63, 0.6);
    net.pipe(tee, net.surface(rise + 0.02 * (t % 3)), 20, 8 + 4 * random(), true);
    last = tee;
  }
  if (ring) net.pipe(last, head, 63, 2);
  return net;
}

function grid(name, side, rows) {
  const net = new Network(name), tank = net.surface(20);
  const at = [];
  for (let i = 0; i < side * rows; ++i) at.push(net.junction(0.02 * random()));
  net.pipe(tank, at[0], 200, 1);
  for (let r = 0; r < rows; ++r)
    for (let c = 0; c < side; ++c) {
      if (c + 1 < side) net.pipe(at[r * side + c], at[r * side + c + 1], 60, 1 + 9 * random());
      if (r + 1 < rows) net.pipe(at[r * side + c], at[(r + 1) * side + c], 60, 1 + 9 * random());
    }
  return net;
}

function shutCheck() {
  const net = new Network("shut check"), low = net.surface(0), high = net.surface(3), j = net.junction(0.5);
  net.pipe(low, j, 30, 5, true);
  net.pipe(high, j, 30, 9);
  return net;
}

function threeReservoirs() {
  const net = new Network("three reservoirs"), j = net.junction();
  for (const [level, K] of [[20, 30], [100, 60], [40, 80]]) net.pipe(net.surface(level), j, 60, K);
  return net;
}

const networks = [
  threeReservoirs(), manifold("4 tanks", 4), manifold("12 tanks", 12), manifold("48 tanks", 48),
  manifold("ring", 12, { ring: true }), manifold("two pumps", 12, { pumps: 2 }),
  manifold("reduced speed", 12, { speed: 0.8 }), shutCheck(), grid("grid of 25", 5, 5), grid("grid of 1000", 40, 25),
  manifold("lower tanks", 8, { rise: -0.2 }),
];

function inp(net) {
  const of = (kind) => net.links.map((l, i) => ({ ...l, i })).filter((l) => kind.includes(l.kind));
  const lines = ["[JUNCTIONS]"];
  net.nodes.forEach((n, i) => n.kind === "junction" && lines.push(`n${i} 0 ${n.value}`));
  lines.push("[RESERVOIRS]");
  net.nodes.forEach((n, i) => n.kind === "surface" && lines.push(`n${i} ${n.value}`));
  lines.push("[PIPES]");
  for (const l of of(["pipe", "check"]))
    lines.push(`l${l.i} n${l.from} n${l.to} 0.001 ${l.bore} 0.0015 ${l.K * scale} ${l.kind === "check" ? "CV" : "OPEN"}`);
  lines.push("[PUMPS]");
  for (const l of of(["pump"])) lines.push(`l${l.i} n${l.from} n${l.to} HEAD c${l.i} SPEED ${l.K}`);
  lines.push("[CURVES]");
  for (const l of of(["pump"])) for (const [q, h] of curve) lines.push(`c${l.i} ${q * l.bore} ${h}`);
  lines.push("[OPTIONS]", "UNITS LPS", "HEADLOSS D-W", "ACCURACY 0.00001", "HEADERROR 1e-7", "FLOWCHANGE 1e-6",
    "TRIALS 500", "VISCOSITY 1.0", "[END]");
  return lines.join("\n");
}

const workspace = new Workspace();
await workspace.loadModule();

function open(net) {
  workspace.writeFile("net.inp", inp(net));
  const model = new Project(workspace);
  model.open("net.inp", "net.rpt", "net.bin");
  return model;
}

for (const net of networks) {
  const model = open(net);
  model.openH();
  model.initH(10); // 10: flows from scratch
  model.runH();
  console.log(`network ${net.name.replaceAll(" ", "_")}`);
  for (const n of net.nodes) console.log(`${n.kind} ${+n.value.toPrecision(9)}`);
  net.links.forEach((l, i) => {
    const q = model.getLinkValue(model.getLinkIndex(`l${i}`), 8); // 8: flow
    console.log(`${l.kind} ${l.from} ${l.to} ${l.bore} ${+l.K.toPrecision(9)} ${+q.toPrecision(9)}`);
  });
  console.log("end");
  model.close();
}
