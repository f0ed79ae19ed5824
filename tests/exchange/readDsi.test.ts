import { describe, expect, it } from "vitest";
import { taken, understood, whys } from "./bringing.ts";

// Element names of D-SI from memory; coverage factors of a normal distribution by JCGM 100:2008, table G.1: 1.960 for 95 %, 2.576 for 99 %.

const real = (label: string, value: string, doubt: string) =>
  `<si:real xmlns:si="https://ptb.de/si"><si:label>${label}</si:label><si:value>${value}</si:value><si:unit>\\milli\\metre</si:unit>${doubt}</si:real>`;
const expanded = (factor: string, ...more: readonly string[]) =>
  `<si:expandedUnc><si:uncertainty>0.0004</si:uncertainty><si:coverageFactor>${factor}</si:coverageFactor>${more.join("")}</si:expandedUnc>`;
const probability = (p: string) => `<si:coverageProbability>${p}</si:coverageProbability>`;
const distribution = (name: string) => `<si:distribution>${name}</si:distribution>`;

describe("a length of a certificate that is no size of a thing", () => {
  it.each([
    ["Deviation from nominal length of block 10", "0.0003"],
    ["block 10, variation in length", "0.00012"],
    ["Flatness of block 10", "0.0001"],
    ["Messabweichung block 10", "0.0003"],
    ["block 10", "-0.0003"],
  ])("%s becomes a quantity of the ledger, and no thickness", (label, value) => {
    const { spacers, ledger } = taken(understood(real(label, value, expanded("2"))));
    expect(spacers).toEqual([expect.objectContaining({ id: "block 10", thickness: "" })]);
    expect(ledger).toEqual([expect.objectContaining({ entry: `${value} mm ± 0.0004 mm (k = 2)` })]);
  });
  it.each(["Error of the diameter of probe", "Stem of probe, diameter"])("%s: nor a radius of a tool", (label) => {
    const { tools, ledger } = taken(understood(real(label, "0.0006", expanded("2"))));
    expect([tools[0]?.radius, ledger.length]).toEqual(["", 1]);
  });
});

describe("the stated coverage of a certificate", () => {
  const [block, size] = ["block 10", "10.0001"];
  const doubtOf = (...of: Parameters<typeof expanded>) => understood(real(block, size, expanded(...of))).lines[0]?.doubt;
  it("is told, and asks nothing where it goes with the factor", () => {
    const [line] = understood(real(block, size, expanded("2", probability("0.95"), distribution("normal")))).lines;
    expect(line?.read).toBe("block 10: 10.0001 mm, U 0.0004 mm, k 2 (coverage probability 0.95, normal)");
    expect(line?.doubt).toBeUndefined();
    expect(doubtOf("2.58", probability("0.99"))).toBeUndefined();
  });
  it("asks where the distribution is another", () => {
    expect(doubtOf("1.73", probability("1"), distribution("uniform"))).toBe(
      "its distribution is stated as uniform, and it would count as normal",
    );
    expect(doubtOf("2.4", probability("0.95"), distribution("Student's t"))).toContain("stated as Student's t");
  });
  it("asks where probability and factor do not go together", () => {
    expect(doubtOf("2", probability("0.99"))).toBe(
      "k 2 for a coverage probability of 0.99 means another distribution, or a mistake: of a normal one it is 2.58",
    );
    expect(doubtOf("2.43", probability("0.95"))).toContain("few degrees of freedom, which are not taken");
    expect(doubtOf("2", probability("95"))).toBe("its coverage probability 95 is none between 0 and 1");
  });
  it("tells what else is said of it", () => {
    expect(doubtOf("2", "<si:traceable>no</si:traceable>")).toBe("traceable of its uncertainty is not used");
    expect(whys(understood(real(block, size, expanded("2"))))).toEqual([]);
  });
});
