import fc from "fast-check";
import { expect, it } from "vitest";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { type Job, openJob } from "../documents/openJob.ts";

const entries = [
  ["part", "elements", 0, "roughness"],
  ["part", "elements", 1, "skew"],
  ["part", "elements", 4, "datum"],
  ["part", "elements", 5, "x"],
  ["part", "elements", 5, "diameter"],
  ["part", "elements", 5, "process"],
  ["part", "elements", 7, "z"],
  ["part", "dimensions", 0, "nominal"],
  ["part", "dimensions", 0, "tolerance"],
  ["part", "dimensions", 0, "measured"],
  ["part", "dimensions", 0, "measuredUncertainty"],
  ["part", "characteristics", 0, "tolerance"],
  ["part", "characteristics", 0, "of"],
  ["tools", 0, "radius"],
  ["tools", 0, "radiusUncertainty"],
  ["tools", 0, "lateTrigger"],
  ["tools", 0, "eccentricity"],
  ["tools", 1, "length"],
  ["tools", 1, "scatter"],
  ["spacers", 0, "thickness"],
  ["machine", "decimals"],
  ["machine", "offsetStep"],
  ["machine", "displayStep"],
  ["machine", "positioning"],
  ["machine", "positioningOver"],
  ["touches", 0, "readings"],
  ["touches", 0, "tool"],
  ["touches", 0, "y"],
  ["touches", 3, "readings"],
  ["strategies", 0, "rotation"],
  ["strategies", 0, "sizes"],
  ["strategies", 0, "zero", "x"],
  ["strategies", 1, "touches", 0],
  ["chosen"],
] as const;

const numbers = ["0", "-1", "1e-300", "1e-12", "2", "1e7", "1e150", "1e300", "1e999", "NaN", "1/3", "0.0001 in"];
const words = ["", " ", "x", "left", "middle", "dowel 1", "applied", "measured", "\u0000", "12,500", "1 000", "-312.4 -312.5"];

// No value of any one entry may be more than a problem: whatever is typed, there is an evaluation, and it can be written down.
it("evaluateSetup(document), plainResults(evaluation) and summaryText(evaluation) take any text in any entry", () => {
  const place = fc.constantFrom(...entries);
  const text = fc.oneof(fc.constantFrom(...numbers), fc.constantFrom(...words), fc.string({ maxLength: 12 }));
  fc.assert(
    fc.property(place, text, (path, typed) => {
      const job: Job = { ...openJob("pinBlock"), sampling: { trials: 16, seed: 1 } };
      // Without its position, whose exact distribution takes most of the time and has properties of its own.
      job["part"].characteristics.shift();
      const steps = [...path];
      const last = steps.pop() as string;
      // biome-ignore lint/suspicious/noExplicitAny: a path into JSON data
      const row = steps.reduce<any>((table, step) => {
        table[step] ??= {};
        return table[step];
      }, job);
      row[last] = typed;
      const document = parseDocument(JSON.stringify(job));
      if (!document.ok) return document.problems.length > 0;
      const evaluation = evaluateSetup(document.value);
      const results = plainResults(evaluation);
      expect(JSON.parse(JSON.stringify(results))).toStrictEqual(results);
      return summaryText(evaluation).endsWith("\n");
    }),
    { numRuns: 120 },
  );
}, 120_000);
