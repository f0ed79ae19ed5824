import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { lookForSlips } from "../../lib/slips/lookForSlips.ts";
import { documentFrom } from "../properties/setups.ts";

const row = (id: string, register: string, x: string, y = "-200") => ({ id, kind: "measured zero", register, x, y, why: "touched" });

function found(offsets: readonly object[], register = "G54") {
  const evaluation = evaluateSetup(
    documentFrom({
      part: { elements: [{ id: "left", kind: "face", outward: "-X", datum: "A" }] },
      tools: [{ id: "pin", kind: "tool or pin", radius: "3", scatter: "0.002" }],
      machine: { register },
      touches: [{ id: "l", element: "left", travelling: "+X", tool: "pin", readings: "-403" }],
      strategies: [{ id: "corner", touches: ["l"] }],
      chosen: "corner",
      offsets,
    }),
  );
  return lookForSlips(evaluation, undefined).findings.filter(({ rule }) => rule === "wrong register");
}

describe("registers by the log of offsets", () => {
  it("are sound where each is written near what it held", () => {
    expect(found([row("a", "G54", "-400"), row("b", "G55", "-150"), row("c", "G54", "-400.02")])).toEqual([]);
    expect(found([])).toEqual([]);
  });

  // -150.01 is 0.01 from what G55 held and 249.99 from what G54 held.
  it("are told where a zero lies by what another register held", () => {
    const [finding, ...others] = found([row("a", "G54", "-400"), row("b", "G55", "-150"), row("c", "G54", "-150.01")]);
    expect(others).toEqual([]);
    expect(finding?.at).toBe("offsets.c");
    expect(finding?.suggests).toContain("G55");
  });

  // Both vices are about as high: a row of Z alone fits either, and a row of X alone may do so by chance.
  it("are not told apart by one axis alone", () => {
    const alone = (id: string, register: string, z: string) => ({ ...row(id, register, "", ""), z });
    expect(found([alone("a", "G54", "-300.5"), alone("b", "G55", "-300.02"), alone("c", "G54", "-300.021")])).toEqual([]);
  });

  // Z of vices side by side is about the same; X tells that the row stands in its own register: 0.02 from it, and 250.02 from the other.
  it("are sound where a row lies by its own register along one axis and by another's along another", () => {
    const before = [
      { ...row("a", "G54", "-400"), z: "-300.05" },
      { ...row("b", "G55", "-150"), z: "-300.021" },
    ];
    expect(found([...before, { ...row("c", "G54", "-400.02"), z: "-300.02" }])).toEqual([]);
    expect(found([...before, { ...row("c", "G54", "-150.01"), z: "-300.02" }])).toHaveLength(1);
  });

  it("are told where the programme calls one that was never written", () => {
    const [finding] = found([row("a", "G55", "-150")]);
    expect(finding?.at).toBe("machine.register");
    expect(finding?.evidence).toContain("G54");
    expect(found([row("a", "G55", "-150")], "G55")).toEqual([]);
  });
});
