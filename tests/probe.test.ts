import { readFileSync } from "node:fs";
import { it } from "vitest";
import { parseDocument } from "../lib/document/parseDocument.ts";
import { evaluateSetup, drawsFor } from "../lib/evaluateSetup.ts";
import { readSetup } from "../lib/document/readSetup.ts";
import { locatePart } from "../lib/datum/locatePart.ts";
import { solveStrategy } from "../lib/datum/solveStrategy.ts";
import { judgeStrategy } from "../lib/tolerance/judgeStrategy.ts";
import { deviations } from "../lib/tolerance/deviations.ts";
import { budgetsOf } from "../lib/uncertainty/budget.ts";
it("time", () => {
  for (const f of ["notebooks/demo/bearingCover.json", "tests/acceptance/plateWithSawnEnd.json"]) {
  const d = parseDocument(readFileSync(f, "utf8"));
  if (!d.ok) { console.log(d); continue; }
  const draws = drawsFor(readSetup(d.value).setup);
  const time = (name: string, fn: () => unknown) => { const ts: number[] = []; for (let i=0;i<60;i++){const t=performance.now(); fn(); ts.push(performance.now()-t);} ts.sort((a,b)=>a-b); console.log(f, name, "median", ts[30]!.toFixed(2), "first..max", ts[59]!.toFixed(2)); };
  time("evaluate", () => evaluateSetup(d.value, draws));
  time("read", () => readSetup(d.value));
  const { setup } = readSetup(d.value);
  time("locate", () => locatePart(setup));
  const loc = locatePart(setup);
  time("solve strategies", () => setup.strategies.map(s => solveStrategy(s, loc)));
  const sols = setup.strategies.map(s => solveStrategy(s, loc));
  time("deviations", () => sols.map(s => s.ok && deviations(s.value, loc, "thisPart")));
  const devs = sols.map(s => s.ok ? deviations(s.value, loc, "thisPart").flatMap(x => x.ok ? x.value : []) : []);
  time("budgets", () => devs.map(x => budgetsOf(x)));
  time("judge thisPart", () => sols.map(s => s.ok && judgeStrategy(s.value, loc, "thisPart", draws)));
  time("judge batch", () => sols.map(s => s.ok && judgeStrategy(s.value, loc, "batch", draws)));
  }
});
