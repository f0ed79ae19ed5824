import { describe, expect, it } from "vitest";
import { disagreementRate } from "../../lib/slips/explain/explainDisagreement.ts";
import { slipRules } from "../../lib/slips/slipRules.ts";
import { slipRates } from "./slipRates.ts";

/** Chance of at least so many in n where each happens with this probability: the sum of the binomial terms. */
function binomialTail(atLeast: number, n: number, probability: number): number {
  let [term, below] = [(1 - probability) ** n, 0];
  for (let k = 0; k < atLeast; k++) {
    below += term;
    term *= ((n - k) / (k + 1)) * (probability / (1 - probability));
  }
  return Math.max(0, 1 - below);
}

/** A test that does not fail by bad luck more than once in so many. */
const luck = 1e-4;

describe("rates of the rules on simulated setups", () => {
  const rates = slipRates(160, 20_260_425);
  const named = rates.rules.map((each) => [[each.rule, each.looksAt ?? []].flat().join(": "), each] as const);

  it("are there for every rule", () => {
    expect(slipRules.map(({ name }) => name).filter((name) => !rates.rules.some(({ rule }) => rule === name))).toEqual([]);
  });

  it.each(named)("%s: false alarms stay within the stated rate", (_, { stated, clean, falseAlarms }) => {
    expect(binomialTail(falseAlarms, clean, stated)).toBeGreaterThan(luck);
  });

  // Slips of the sizes told in slipRates.ts; what the table of the documentation states is more than this.
  it.each(named)("%s: finds its slip", (_, { found, slipped }) => {
    expect(found / slipped).toBeGreaterThanOrEqual(0.8);
  });

  it("evidence without a slip is called in disagreement within the stated rate", () => {
    expect(binomialTail(rates.cleanDisagreements, rates.cleanSetups, disagreementRate)).toBeGreaterThan(luck);
  });

  it.each(rates.explanations.map((each) => [each.slip, each] as const))(
    "%s: its explanation is among the first two",
    (_, { amongTwo, setups }) => {
      expect(amongTwo / setups).toBeGreaterThanOrEqual(0.9);
    },
  );
});
