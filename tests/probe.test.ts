import { readFileSync } from "node:fs";
import { it } from "vitest";
import { parseDocument } from "../lib/document/parseDocument.ts";
import { evaluateSetup, drawsFor } from "../lib/evaluateSetup.ts";
import { readSetup } from "../lib/document/readSetup.ts";
import { locatePart } from "../lib/datum/locatePart.ts";
import { solveStrategy } from "../lib/datum/solveStrategy.ts";
import { judgeStrategy } from "../lib/tolerance/judgeStrategy.ts";
import { chanceOfAll } from "../lib/tolerance/chanceOfAll.ts";
import { deviations } from "../lib/tolerance/deviations.ts";
import { budgetsOf } from "../lib/uncertainty/budget.ts";
import { stackOf } from "../lib/tolerance/stack.ts";
it("time", () => {
  for (const f of ["notebooks/demo/bearingCover.json"]) {
  const d = parseDocument(readFileSync(f, "utf8"));
  if (!d.ok) { console.log(d); continue; }
  const draws = drawsFor(readSetup(d.value).setup);
  const time = (name: string, fn: () => unknown) => { for (let i=0;i<100;i++) fn(); const c = process.cpuUsage(); const w = performance.now(); for (let i=0;i<100;i++) fn(); const d = process.cpuUsage(c); console.log(name, "median cpu ms", ((d.user+d.system)/1e5).toFixed(2), "wall", ((performance.now()-w)/100).toFixed(2)); };
  time("evaluate", () => evaluateSetup(d.value, draws));
  time("read", () => readSetup(d.value));
  const { setup } = readSetup(d.value);
  time("locate", () => locatePart(setup));
  const loc = locatePart(setup);
  time("solve strategies", () => setup.strategies.map(s => solveStrategy(s, loc)));
  const sols = setup.strategies.map(s => solveStrategy(s, loc));
  time("deviations", () => sols.map(s => s.ok && deviations(s.value, loc, "thisPart")));
  const devs = sols.map(s => s.ok ? deviations(s.value, loc, "thisPart") : []);
  time("budgets", () => devs.map(x => budgetsOf(x.flatMap(y => y.ok ? y.value : []))));
  const comps = devs.map(x => x.map(y => y.ok ? budgetsOf(y.value) : []));
  time("stacks", () => comps.map(x => x.map((y,i) => stackOf(setup.part.characteristics[i]!, y))));
  const stacks = comps.map(x => x.map((y,i) => stackOf(setup.part.characteristics[i]!, y)));
  time("chance of all", () => stacks.map(x => chanceOfAll(x, draws)));
  time("judge thisPart", () => sols.map(s => s.ok && judgeStrategy(s.value, loc, "thisPart", draws)));
  time("judge batch", () => sols.map(s => s.ok && judgeStrategy(s.value, loc, "batch", draws)));
  }
}, 100000);
