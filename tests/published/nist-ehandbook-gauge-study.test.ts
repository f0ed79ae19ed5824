import { describe, expect, it } from "vitest";
import { oneWayAnalysis } from "../../lib/uncertainty/oneWayAnalysis.ts";
import { readRows } from "./nistData.ts";

// NIST/SEMATECH e-Handbook of Statistical Methods, 2.6.1.2: a gauge study of resistivity probes, probe 2362, five wafers on six days in each of two runs; the file in
// data/ is NIST's own (printed values from memory, recomputed).
describe("e-Handbook 2.6.1, probe 2362", () => {
  const ofProbe = readRows("MPC61.DAT", 40).filter(([, , probe]) => probe === 2362);
  const byWafer = (run: number) =>
    [138, 139, 140, 141, 142].map((wafer) => ofProbe.filter((row) => row[0] === run && row[1] === wafer).map((row) => row[7] as number));

  it.each([
    ["1", byWafer(1), 25, 0.0333],
    ["2", byWafer(2), 25, 0.0388],
    ["1 and 2", [...byWafer(1), ...byWafer(2)], 50, 0.0362],
  ])("hb-mpc61: run %s scatters from day to day by the printed standard deviation", (_, groups, degreesOfFreedom, printed) => {
    const { within } = oneWayAnalysis(groups);
    expect(within.degreesOfFreedom).toBe(degreesOfFreedom);
    expect(Math.abs(Math.sqrt(within.meanSquare) - printed)).toBeLessThanOrEqual(0.00005);
  });
});
