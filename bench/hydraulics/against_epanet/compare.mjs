// Times of the pipe network's benchmarks beside EPANET's on the same layouts; run.sh calls it.
//   node compare.mjs BENCHMARK FOLDER_OF_INP_FILES
// Both engines take turns, five times; the least time of each counts. EPANET is timed inside its Toolkit:
//   build and solve   open an input file that lies in memory, solve from scratch, close
//   from scratch      on the open project
//   again             on the open project from the last flows, the pump's speed set to 0.9 and 1.0 in turn
// Ours are theca_bench_hydraulics: build and solve makes the Network and its solver, and copies the answer out.
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { Project, Workspace } from "epanet-js";

const [benchmark, folder] = process.argv.slice(2);
const initialSetting = 5, flow = 8;  // EN_INITSETTING, EN_FLOW
const reinitialise = 10, keepFlows = 0;  // EN_InitHydOption

const workspace = new Workspace();
await workspace.loadModule();

function time(work) {  // milliseconds a call; as many calls as take 0.2 s
  let calls = 0;
  const start = performance.now();
  do {
    for (let k = 0; k < 20; ++k) work(calls++);
  } while (performance.now() - start < 200);
  return (performance.now() - start) / calls;
}

function epanet(name) {
  workspace.writeFile("net.inp", readFileSync(`${folder}/${name}.inp`, "utf8"));
  const open = () => {
    const model = new Project(workspace);
    model.open("net.inp", "net.rpt", "net.bin");
    model.openH();
    return model;
  };
  const solve = (model, option) => {
    model.initH(option);
    model.runH();
  };
  const build = time(() => {
    const model = open();
    solve(model, reinitialise);
    model.close();
  });
  const model = open();
  const scratch = time(() => solve(model, reinitialise));
  const result = { build, scratch, flow: model.getLinkValue(1, flow) };
  if (name.startsWith("tanks")) {
    const pump = model.getLinkIndex("pump0");
    result.flow = model.getLinkValue(pump, flow);
    result.again = time((k) => {
      model.setLinkValue(pump, initialSetting, k % 2 ? 1.0 : 0.9);
      solve(model, keepFlows);
    });
  }
  model.close();
  return result;
}

function theca() {
  const options = ["--benchmark_filter=build_and_solve|again|grid", "--benchmark_min_time=0.2",
    "--benchmark_format=json"];
  const run = JSON.parse(execFileSync(benchmark, options, { stdio: ["ignore", "pipe", "ignore"] }));
  const unit = { ns: 1e-6, us: 1e-3, ms: 1 };
  return Object.fromEntries(run.benchmarks.map((b) => [b.name, b.real_time * unit[b.time_unit]]));
}

const layouts = ["tanks_4", "tanks_12", "tanks_48", "grid_of_1000"];
const ours = {}, theirs = {};
const keepLeast = (all, name, value) => (all[name] = Math.min(all[name] ?? Infinity, value));
for (let turn = 0; turn < 5; ++turn) {
  for (const [name, value] of Object.entries(theca())) keepLeast(ours, name, value);
  for (const name of layouts)
    for (const [what, value] of Object.entries(epanet(name))) keepLeast(theirs, `${name} ${what}`, value);
}
const row = (what, here, there) =>
  console.log(`${what.padEnd(34)}${(1e3 * here).toFixed(1).padStart(12)}${(1e3 * there).toFixed(1).padStart(14)}` +
    `${(there / here).toFixed(1).padStart(9)}`);
console.log(`${"microseconds".padEnd(34)}${"theca".padStart(12)}${"EPANET".padStart(14)}${"ratio".padStart(9)}`);
for (const count of [4, 12, 48]) {
  row(`${count} tanks, build and solve`, ours[`build_and_solve/${count}`], theirs[`tanks_${count} build`]);
  row("  against EPANET from scratch", ours[`build_and_solve/${count}`], theirs[`tanks_${count} scratch`]);
  row("  again at another speed", ours[`again_at_another_speed/${count}`], theirs[`tanks_${count} again`]);
}
row("grid of 1000, build and solve", ours.grid_of_1000, theirs["grid_of_1000 build"]);
row("  against EPANET from scratch", ours.grid_of_1000, theirs["grid_of_1000 scratch"]);
