import { expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { rationaleOf } from "../../lib/rationaleOf.ts";
import { exampleDocument } from "../../notebooks/pages/demo.ts";

// The touches are those that the job's own file states for its strategies.
it("a rationale tells what the zero that is typed rests on and what limits it, also where another strategy is ranked first", () => {
  const document = exampleDocument("turnedCasting");
  const { strategy, alternatives, evidence, reasons } = rationaleOf(document, evaluateSetup(document));
  expect(strategy).toBe("bore, turned to front");
  expect(alternatives[0]).toMatchObject({ id: "bore, Z from the parallels", inUse: false });
  const rests = evidence.filter((sentence) => sentence.includes(" rests on "));
  expect(rests).toHaveLength(1);
  expect(rests[0]).toContain('"bore, turned to front" rests on the touches "b1", "b2", "b3", "b4", "front 1", "front 2" and "parallels"');
  expect(reasons.some((sentence) => sentence.startsWith('The bottleneck of "bore, turned to front" '))).toBe(true);
});

it("where the strategy in use is ranked first, it is told of once", () => {
  const document = { ...exampleDocument("turnedCasting"), chosen: "bore, Z from the parallels" };
  const { evidence, reasons } = rationaleOf(document, evaluateSetup(document));
  expect(evidence.filter((sentence) => sentence.includes(" rests on "))).toHaveLength(1);
  const bottlenecks = reasons.filter((sentence) => sentence.startsWith("The bottleneck of "));
  expect(new Set(bottlenecks).size).toBe(bottlenecks.length);
  expect(bottlenecks.every((sentence) => sentence.includes('"bore, Z from the parallels"'))).toBe(true);
});
