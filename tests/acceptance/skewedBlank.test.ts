import { describe, expect, it } from "vitest";
import { axisOnlyErrors } from "../../lib/datum/axisOnlyErrors.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { normalDiscChance } from "../../lib/uncertainty/normalDiscChance.ts";
import { evaluateDocument, must, openDocument, uncertaintyWithout } from "./openDocument.ts";

// A blank clamped out of line, an inch job. Inputs invented; expected values computed by an independent program and
// confirmed by other routes, given to six decimals of an inch.
const document = openDocument("skewedBlank");
const blank = evaluateDocument(document);
const inch = 25.4;
const sixDecimals = 6;
const degrees = (radians: number) => (radians * 180) / Math.PI;
const turned = "corner, turned";

describe("skewed blank: the frame", () => {
  it("skew is 0.142315 degree, u 0.001568", () => {
    const rotation = must(blank.strategy(turned).rotation);
    expect(degrees(rotation.value)).toBeCloseTo(0.142315, sixDecimals);
    expect(degrees(rotation.standardUncertainty)).toBeCloseTo(0.001568, sixDecimals);
  });

  it("residuals of the edge are 0.000067, -0.000133, 0.000067: 1.11 times the scatter at most", () => {
    const residuals = blank
      .strategy(turned)
      .solution.frame.residuals.slice(0, 3)
      .map((residual) => residual / inch);
    // Ours are measured outwards from the metal, the scenario's upwards along Y: the edge looks down.
    for (const [i, expected] of [6.7e-5, -0.000133, 6.7e-5].entries()) expect(-(residuals[i] as number)).toBeCloseTo(expected, sixDecimals);
    expect(Math.max(...residuals.map(Math.abs)) / 0.00012).toBeCloseTo(1.111111, 5);
  });

  it("the corner lies at -14.261376, -8.734009, by the radius along the normals", () => {
    const [x, y] = blank.strategy(turned).zero.slice(0, 2).map(must);
    expect((x?.value ?? 0) / inch).toBeCloseTo(-14.261376, sixDecimals);
    expect((y?.value ?? 0) / inch).toBeCloseTo(-8.734009, sixDecimals);
  });

  it("the radius put along the axis in the place of the normal leaves the faces 0.000001 short", () => {
    const errors = axisOnlyErrors(blank.location);
    expect(errors.map(({ touch }) => touch).sort()).toEqual(["B1", "B2", "B3", "C1"]);
    for (const { error } of errors) expect(Number((error.value / inch).toFixed(6))).toBe(1e-6);
    // As anybody reads it: of every face in the plain results.
    for (const { axisOnlyError } of plainResults(blank).faces) expect(((axisOnlyError?.value ?? 0) / inch).toFixed(6)).toBe("0.000001");
    // 0.0000006 to two digits, from r (1/cos θ - 1) with 0.1968 and 0.142315 degree.
    expect(summaryText(blank).replace(/\s+/g, " ")).toContain("lies up to 0.00000061 in further");
  });

  it("the first touches alone give -14.2632, -8.7323", () => {
    const [x, y] = blank.strategy("first touches").zero.slice(0, 2).map(must);
    expect((x?.value ?? 0) / inch).toBeCloseTo(-14.2632, sixDecimals);
    expect((y?.value ?? 0) / inch).toBeCloseTo(-8.7323, sixDecimals);
  });

  it("the offset to type is G10 L2 P1 X-14.2614 Y-8.7340 in inches", () => {
    expect(must(blank.strategy(turned).offset).lines).toEqual(["G20 G90", "G10 L2 P1 X-14.2614 Y-8.7340"]);
    expect(summaryText(blank).replace(/\s+/g, " ")).toContain("turns the coordinates by 0.1423 degrees");
  });

  it("Z stays open, and is said to be", () => {
    const [, , z] = blank.strategy(turned).zero;
    expect(z?.ok).toBe(false);
  });

  it("half the catalogue's 10 mm are 0.19685; the diameter in its place shifts a face by 0.1968, 5 by 4.8032, and a bare 5 is asked about", () => {
    const withRadius = (radius: string): SetupDocument => ({ ...document, tools: document.tools.map((tool) => ({ ...tool, radius })) });
    const [tool] = evaluateDocument(withRadius("")).setup.tools;
    expect((tool?.radius ?? 0) / inch).toBeCloseTo(0.19685, sixDecimals);
    const shiftBy = (radius: string) => evaluateDocument(withRadius(radius)).face("C1").value - blank.face("C1").value;
    expect(shiftBy("0.3936") / inch).toBeCloseTo(0.1968, sixDecimals);
    expect(shiftBy("5 in") / inch).toBeCloseTo(4.8032, sixDecimals);
    const asked = evaluateDocument(withRadius("5")).problems;
    expect(asked.map(({ at }) => at)).toContain("tools.ball.radius");
  });

  it("a burr of 0.003 under the middle touch leaves -0.001, 0.002, -0.001, under an end touch 0.0005, -0.001, 0.0005", () => {
    const shiftOf = (touch: string) => {
      const touches = document.touches.map((each) => (each.id === touch ? { ...each, readings: `${each.readings} - 0.003 in` } : each));
      const { frame } = evaluateDocument({ ...document, touches }).strategy(turned).solution;
      const before = blank.strategy(turned).solution.frame;
      return {
        residuals: frame.residuals.slice(0, 3).map((residual, i) => (residual - (before.residuals[i] as number)) / inch),
        angle: degrees(frame.rotation.value - before.rotation.value),
      };
    };
    // A burr holds the tool off the face: the residual outwards from the metal is positive there.
    const middle = shiftOf("B2").residuals;
    for (const [i, expected] of [-0.001, 0.002, -0.001].entries()) expect(middle[i]).toBeCloseTo(expected, 5);
    const end = shiftOf("B3");
    for (const [i, expected] of [0.0005, -0.001, 0.0005].entries()) expect(end.residuals[i]).toBeCloseTo(expected, 5);
    expect(Math.abs(end.angle)).toBeCloseTo(0.027724, 4);
  });

  it("an end burr shows at three times the scatter from 0.00108", () => {
    const touches = document.touches.map((each) => (each.id === "B3" ? { ...each, readings: `${each.readings} - 0.00108 in` } : each));
    const { residuals } = evaluateDocument({ ...document, touches }).strategy(turned).solution.frame;
    const before = blank.strategy(turned).solution.frame.residuals;
    const moved = residuals.slice(0, 3).map((residual, i) => Math.abs(residual - (before[i] as number)) / inch);
    expect(Math.max(...moved)).toBeCloseTo(3 * 0.00012, sixDecimals);
  });

  it("the first touches lie -0.001824, 0.001709 off the corner", () => {
    const zeros = ["first touches", turned].map((id) =>
      blank
        .strategy(id)
        .zero.slice(0, 2)
        .map((axis) => must(axis).value / inch),
    );
    const [naive, corner] = zeros as [number[], number[]];
    expect((naive[0] as number) - (corner[0] as number)).toBeCloseTo(-0.001824, sixDecimals);
    expect((naive[1] as number) - (corner[1] as number)).toBeCloseTo(0.001709, sixDecimals);
  });

  it("the far touch is to be tapped by 0.0154, and what is left of 0.0004 is 0.003697 degree, 0.000435 at D2", () => {
    expect((blank.face("B3").value - blank.face("B1").value) / inch).toBeCloseTo(0.0154, sixDecimals);
    const left: Readonly<Record<string, string>> = { B1: "-8.9291", B2: "-8.9289", B3: "-8.9287" };
    const tapped = evaluateDocument({
      ...document,
      touches: document.touches.map((each) => ({ ...each, readings: left[each.id] ?? each.readings })),
    });
    expect(degrees(must(tapped.strategy("corner, not turned").rotation).value)).toBeCloseTo(0.003697, sixDecimals);
    const stack = tapped.stack("corner, not turned", "D2", "thisPart");
    expect(Math.abs(stack.components[1]?.value ?? 0) / inch).toBeCloseTo(0.000435, sixDecimals);
  });

  it("two touches 2.291026 apart leave D2 with 0.0005 of their turn", () => {
    const touches = document.touches.map((each) => (each.id === "B2" ? { ...each, x: String(-13.6 + 2.291026) } : each));
    const strategies = document.strategies.map((each) => (each.id === turned ? { ...each, touches: ["B1", "B2", "C1"] } : each));
    const short = evaluateDocument({
      ...document,
      touches: touches.filter(({ id }) => id !== "B3"),
      strategies: strategies.filter(({ id }) => id === turned),
    });
    const turn = must(short.strategy(turned).rotation).standardUncertainty;
    expect(turn * 6.75).toBeCloseTo(0.0005, sixDecimals);
  });
});

describe("skewed blank: what it does to the features", () => {
  const features = {
    D1: {
      naive: [-0.000269, -0.000151],
      used: 0.000618,
      corner: [0.00155, -0.001865],
      usedCorner: 0.00485,
      ux: 0.000127,
      uy: 0.000115,
      chanceNaive: 1,
    },
    D2: {
      naive: [-0.000288, -0.015055],
      used: 0.030115,
      corner: [0.001532, -0.016768],
      usedCorner: 0.033676,
      ux: 0.000127,
      uy: 0.000114,
      chanceNaive: 0,
    },
    BORE: {
      naive: [0.003447, -0.007608],
      used: 0.016704,
      corner: [0.005267, -0.009321],
      usedCorner: 0.021412,
      ux: 0.000132,
      uy: 8e-5,
      chanceNaive: 0.000506,
    },
  } as const;

  const places = { D1: [0.75, 0.625], D2: [6.75, 0.625], BORE: [3.75, 2.125] } as const;

  it.each(Object.entries(features))("%s", (id, expected) => {
    const naive = blank.stack("first touches", id, "thisPart");
    const corner = blank.stack("corner, not turned", id, "thisPart");
    const right = blank.stack(turned, id, "thisPart");
    for (const [axis, value] of expected.naive.entries())
      expect((naive.components[axis]?.value ?? 0) / inch).toBeCloseTo(value, sixDecimals);
    expect(naive.deviation / inch).toBeCloseTo(expected.used, sixDecimals);
    for (const [axis, value] of expected.corner.entries())
      expect((corner.components[axis]?.value ?? 0) / inch).toBeCloseTo(value, sixDecimals);
    expect(corner.deviation / inch).toBeCloseTo(expected.usedCorner, sixDecimals);
    expect(right.deviation / inch).toBeCloseTo(0, 9);
    // The scenario's u is that of the frame alone; positioning and process are added for the chance.
    const frameOnly = right.components.map((component) => uncertaintyWithout(component, ["positioning", "process"]) / inch);
    expect(frameOnly[0]).toBeCloseTo(expected.ux, sixDecimals);
    expect(frameOnly[1]).toBeCloseTo(expected.uy, sixDecimals);
    expect(right.chance).toBeCloseTo(1, 6);
    // The scenario lets the positioning error of both axes grow with the straight distance from the corner; ours lets that
    // of an axis grow with the travel of that axis, since each has its own screw and scale. Both numbers are held here.
    const [px, py] = places[id as keyof typeof places];
    const positioning = ((0.0003 / 12) * Math.hypot(px, py)) / Math.sqrt(3);
    const process = 0.0004;
    const [ux, uy] = frameOnly.map((u) => Math.hypot(u, positioning, process)) as [number, number];
    const [ex, ey] = naive.components.map(({ value }) => value / inch) as [number, number];
    expect(normalDiscChance([ex, ey], [ux * ux, 0, uy * uy], naive.limits.upper / inch / 2)).toBeCloseTo(expected.chanceNaive, sixDecimals);
    expect(Math.abs(naive.chance - expected.chanceNaive)).toBeLessThan(1e-4);
  });
});
