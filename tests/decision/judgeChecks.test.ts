import { describe, expect, it } from "vitest";
import { describeProblem } from "../../lib/base/outcome.ts";
import { eventsSince } from "../../lib/decision/eventsSince.ts";
import { suggestedChecks } from "../../lib/decision/suggestedChecks.ts";
import { readSetup } from "../../lib/document/readSetup.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { must } from "../properties/setups.ts";
import { type Plate, plateDocument, typedCheck } from "../slips/plate.ts";

const evaluated = (change: (plate: Plate) => void) => evaluateSetup(plateDocument(change));
const checkNamed = (id: string, change: (plate: Plate) => void) => {
  const found = evaluated(change).checks.find(({ check }) => check.id === id);
  if (found === undefined) throw new Error(`no check ${id}`);
  return { ...found, value: must(found.evaluation) };
};
const problemsAt = (at: string, change: (plate: Plate) => void) =>
  evaluated(change)
    .problems.filter((problem) => problem.at.startsWith(at))
    .map(describeProblem);

// The plate of the scenario: left face -409.61325, back face -171.27375, right face -289.74125 (expected values of an independent program), r = 2.998,
// scatter of one touch 0.005.
describe("a check", () => {
  it("of a face that was touched before must show R = F - a · r, within s·√(1 + 1/n) and nothing else", () => {
    const { value } = checkNamed("left", (plate) => plate.checks.push(typedCheck("left", "-412.611")));
    expect(value.predicted.value).toBeCloseTo(-409.61325 - 2.998, 9);
    expect(value.predicted.standardUncertainty).toBeCloseTo(0.005 * Math.sqrt(1 + 1 / 4), 9);
    expect(value.verdict?.difference.value).toBeCloseTo(-412.611 + 412.61125, 9);
    expect(value.verdict?.agrees).toBe(true);
  });

  it("of a face touched with another tool doubts both radii: F = R + a · r with r = 5 mm, u = 0.004", () => {
    const { value } = checkNamed("left", (plate) => {
      plate.tools.push({ id: "pin", kind: "tool or pin", radius: "5", radiusUncertainty: "0.004", scatter: "0" });
      plate.checks.push({ ...typedCheck("left", ""), tool: "pin" });
    });
    expect(value.predicted.value).toBeCloseTo(-409.61325 - 5, 9);
    // Scatter of the mean of four, radius and late trigger of the finder (6 micrometres either way), radius of the pin; roughness and lean are the face's own and go out.
    const finder = Math.hypot(0.0025, 0.0015, 0.006 / Math.sqrt(3));
    expect(value.predicted.standardUncertainty).toBeCloseTo(Math.hypot(finder, 0.004), 5);
  });

  it("of a face that nobody touched must show where the drawing has it, and the size's tolerance is its doubt", () => {
    const { value, usedForZero } = checkNamed("back", (plate) => {
      plate.touches = plate.touches.filter(({ id }) => id !== "back");
      plate.checks.push(typedCheck("back", ""));
    });
    // Front -251.33775 and 80 mm as drawn, touched travelling -Y: R = F + r. The limits ±0.15 are three standard deviations.
    expect(value.predicted.value).toBeCloseTo(-251.33775 + 80 + 2.998, 9);
    expect(value.predicted.standardUncertainty).toBeGreaterThan(0.05);
    expect(value.predicted.standardUncertainty).toBeLessThan(0.053);
    expect(value.verdict).toBeUndefined();
    expect(usedForZero).toBe(false);
  });

  it("three limits off has a normalised error of 3 and is told by its chance", () => {
    const u = 0.005 * Math.sqrt(1 + 1 / 4);
    const { value } = checkNamed("left", (plate) => plate.checks.push(typedCheck("left", (-412.61125 + 6 * u).toFixed(9))));
    expect(value.verdict?.normalisedError).toBeCloseTo(3, 6);
    expect(value.verdict?.agrees).toBe(false);
    // 2·(1 - Φ(6)) = 1.973e-9 (tables of the normal distribution).
    expect(value.verdict?.chance).toBeCloseTo(1.973e-9, 12);
    expect(value.verdict?.dominating?.source.id).toContain("scatter");
  });

  it("of several readings is judged by their mean, and goes on telling the limits of one new reading", () => {
    const { value } = checkNamed("left", (plate) => plate.checks.push(typedCheck("left", "-412.611 -412.615 -412.607 -412.611")));
    expect(value.verdict?.shown).toBeCloseTo(-412.611, 9);
    expect(value.verdict?.difference.standardUncertainty).toBeCloseTo(0.005 * Math.sqrt(1 / 4 + 1 / 4), 9);
    expect(value.predicted.standardUncertainty).toBeCloseTo(0.005 * Math.sqrt(1 + 1 / 4), 9);
    expect(value.predicted.value).toBeCloseTo(-409.61325 - 2.998, 9);
  });

  it("on a face that the zero does not rest on comes first", () => {
    const { checks } = evaluated((plate) => plate.checks.push(typedCheck("left", ""), typedCheck("back", ""), typedCheck("right", "")));
    expect(checks.map(({ check, usedForZero }) => [check.id, usedForZero])).toEqual([
      ["back", false],
      ["right", false],
      ["left", true],
    ]);
  });

  it("locates no part: faces, zero and sizes are the same with it", () => {
    const [without, with_] = [evaluated(() => undefined), evaluated((plate) => plate.checks.push(typedCheck("left", "-400")))];
    expect(with_.faces.map(({ budget }) => budget.value)).toEqual(without.faces.map(({ budget }) => budget.value));
    expect(with_.sizes.map(({ budget }) => budget.value)).toEqual(without.sizes.map(({ budget }) => budget.value));
  });

  it.each([
    [{ element: "nowhere" }, "checks.left.element: there is no such element of the part"],
    [{ tool: "nothing" }, "checks.left.tool: there is no such tool"],
    [{ travelling: "-X" }, 'checks.left.travelling: a tool travelling -X cannot touch "left"'],
    [{ readings: "four" }, "checks.left.readings"],
    [{ when: "yesterday" }, "checks.left.when: this is no time; expected a day and a time, such as 2026-03-14 16:20"],
    [{ when: "2026-02-30 10:00" }, "checks.left.when: this is no time"],
    [{ frame: "old" }, "checks.left.frame: there is no work frame by this name"],
    [{ tool: "reference tool" }, "tools.reference tool.radius"],
  ])("with %j is refused at its place", (entries, told) => {
    const problems = evaluated((plate) => plate.checks.push({ ...typedCheck("left", "-412.611"), ...(entries as object) })).problems.map(
      describeProblem,
    );
    expect(problems.join("\n")).toContain(told);
  });

  it("along no axis that the touches fix is refused", () => {
    const told = problemsAt("checks", (plate) => {
      plate.touches = plate.touches.filter(({ id }) => id !== "top");
      plate.checks.push({ ...typedCheck("top", ""), tool: "reference tool" });
    });
    expect(told.join("\n")).toContain("no touch fixes Z");
  });
});

describe("suggestedChecks", () => {
  it("offers every face without a check, those that the zero does not rest on first, with the tool at hand", () => {
    const { setup } = readSetup(plateDocument((plate) => plate.checks.push(typedCheck("back", ""))));
    expect(suggestedChecks(setup).map(({ element, travelling, tool }) => [element, travelling, tool])).toEqual([
      ["right", "-X", "edge finder"],
      ["left", "+X", "edge finder"],
      ["front", "+Y", "edge finder"],
      ["top", "-Z", "reference tool"],
    ]);
  });
});

describe("a check move", () => {
  it("shows the place, and the gauge line one tool length and the clearance above it", () => {
    const { checkMoves } = evaluated((plate) =>
      plate.checkMoves.push({ id: "over H1", tool: "reference tool", x: "15", y: "15", clearance: "50" }),
    );
    const [x, y, z] = (checkMoves[0] as (typeof checkMoves)[number]).machine.map(must);
    // X: the part is where all touches have it, with the datum C on the left: -409.61325 + 15. Z0 -388.250333 of the scenario, L = 118.462.
    expect(x?.value).toBeCloseTo(-409.61325 + 15, 6);
    expect(y?.value).toBeCloseTo(-251.33775 + 15, 6);
    expect(z?.value).toBeCloseTo(-388.250333 + 50 + 118.462, 5);
    // With the offset as typed, -409.613 -251.338 -388.250, and no tool length.
    expect(checkMoves[0]?.work[2]).toBeCloseTo(50 + 118.462 - 0.000333, 5);
  });

  it.each([
    [{ clearance: "" }, "checkMoves.over.clearance: how far the tip stays above the part is missing"],
    [{ clearance: "0" }, "checkMoves.over.clearance: the tip must stay above the part; expected a length above 0"],
    [{ tool: "edge finder" }, 'checkMoves.over.tool: the length of "edge finder" is not stated, so Z is not known'],
    [{ tool: "none" }, "checkMoves.over.tool: there is no readable tool by this name"],
  ])("with %j is refused at its place", (entries, told) => {
    const problems = evaluated((plate) =>
      plate.checkMoves.push({ id: "over", tool: "reference tool", clearance: "50", ...(entries as object) }),
    ).problems.map(describeProblem);
    expect(problems.join("\n")).toContain(told);
  });
});

describe("events", () => {
  const since = (events: Plate["events"], checks: Plate["checks"] = []) =>
    eventsSince(
      evaluated((plate) => {
        plate.events.push(...events);
        plate.checks.push(...checks);
      }),
    ).map(({ name, verifiedSince }) => [name, verifiedSince]);
  const event = (kind: string, when: string, tool = "") => ({ id: `${kind} ${when}`, kind, when, tool });
  const agreeing = { ...typedCheck("left", "-412.611"), when: "2026-03-14 12:00" };

  // The top as the scenario has it: -388.250333 + 118.462, so that the tip must stop where the touch stopped.
  const noon = "2026-03-14 12:00";
  const along = {
    X: agreeing,
    Y: { ...typedCheck("back", "-168.276"), when: noon },
    Z: { ...typedCheck("top", "-244.788"), tool: "reference tool", spacer: "block", when: noon },
  };
  const all = [along.X, along.Y, along.Z];
  const crash = event("crash", "2026-03-14 10:00");
  const standing = (checks: Plate["checks"], happened = crash) =>
    eventsSince(
      evaluated((plate) => {
        plate.events.push(happened);
        plate.checks.push(...checks);
      }),
    ).map((each) => each.standing)[0];

  it("leave a zero unverified until checks after them agree along every axis of it", () => {
    expect(since([crash])).toEqual([["crash, 2026-03-14 10:00", false]]);
    expect(since([crash], all)).toEqual([["crash, 2026-03-14 10:00", true]]);
    expect(since([event("crash", "2026-03-14 13:00")], all)).toEqual([["crash, 2026-03-14 13:00", false]]);
  });
  it.each([
    [[], "X, Y and Z have not been checked"],
    [[along.X], "X has been checked, Y and Z have not"],
    [[along.X, along.Y], "X and Y have been checked, Z has not"],
    [all, "X, Y and Z have been checked"],
  ])("a check verifies its own axis alone: %#", (checks, told) => {
    expect(standing(checks)).toBe(told);
    expect(since([crash], checks)[0]?.[1]).toBe(checks.length === 3);
  });
  it("are not verified by a check that disagrees, or that says no time", () => {
    expect(since([event("power off", "2026-03-14 10:00")], [{ ...agreeing, readings: "-412.9" }])).toEqual([
      ["power off, 2026-03-14 10:00", false],
    ]);
    expect(since([crash], [{ ...along.X, when: "" }, along.Y, along.Z])[0]?.[1]).toBe(false);
  });
  it("stay open while one check after them disagrees, whatever others say", () => {
    const right = { ...typedCheck("right", "-286.6"), when: noon };
    expect(since([crash], [...all, right])[0]?.[1]).toBe(false);
    expect(standing([...all, right])).toBe('X, Y and Z have been checked, "right" disagrees');
    expect(since([crash], [...all, { ...right, when: "2026-03-14 09:00" }])[0]?.[1]).toBe(true);
  });
  it("of a day without a time are verified by no check of that day, and a zero set on it is not known to be newer", () => {
    expect(since([event("crash", "2026-03-14")], all)[0]?.[1]).toBe(false);
    expect(since([event("crash", "2026-03-13")], all)[0]?.[1]).toBe(true);
    expect(since([event("crash", "2026-03-14"), event("zero set", "2026-03-14 09:00")])).toEqual([["crash, 2026-03-14", false]]);
  });
  // The zero turns the coordinates by two touches of the front edge, 100 mm apart along X; the part may lie turned after a crash.
  it("that may turn the part ask two checks along one axis, half as far apart as the touches that found the turn", () => {
    const turned = (xs: readonly string[], kind = "crash") => {
      const [told] = eventsSince(
        evaluated((plate) => {
          const front = plate.touches.find(({ id }) => id === "front");
          plate.touches = plate.touches.flatMap((touch) => {
            if (touch !== front)
              return [
                {
                  ...touch,
                  ...(touch.id === "left" || touch.id === "right" ? { y: "-200" } : {}),
                  ...(touch.id === "back" ? { x: "-350" } : {}),
                },
              ];
            return [
              { ...touch, id: "front", x: "-400" },
              { ...touch, id: "front 2", x: "-300" },
            ];
          });
          const data = plate as unknown as { strategies: { id: string; touches: string[]; rotation?: string }[] };
          for (const strategy of data.strategies)
            if (strategy.id === "corner on C") Object.assign(strategy, { touches: [...strategy.touches, "front 2"], rotation: "applied" });
          plate.events.push({ ...crash, kind });
          plate.checks.push({ ...along.X, y: "-200" }, along.Z);
          xs.forEach((x, i) => {
            plate.checks.push({ ...typedCheck("front", "-254.336"), id: `front ${i}`, x, when: noon });
          });
        }),
      );
      return told?.standing;
    };
    expect(turned(["-390"])).toBe("X, Y and Z have been checked, the turn about Z has not");
    expect(turned(["-390", "-360"])).toBe("X, Y and Z have been checked, the turn about Z has not");
    expect(turned(["-390", "-310"])).toBe("X, Y, Z and the turn about Z have been checked");
    expect(turned(["-390"], "power off")).toBe("X, Y and Z have been checked");
  });
  it("put in question what the zero in use sets and no more", () => {
    const withoutZ = (plate: Plate) => {
      const strategies = (plate as unknown as { strategies: { id: string; touches: string[] }[]; chosen: string }).strategies;
      for (const strategy of strategies) strategy.touches = strategy.touches.filter((touch) => touch !== "top");
    };
    const [told] = eventsSince(
      evaluated((plate) => {
        withoutZ(plate);
        plate.events.push(crash);
        plate.checks.push(along.X, along.Y);
      }),
    );
    expect(told?.verifiedSince).toBe(true);
  });
  it("before the zero was set do not matter", () => {
    expect(since([event("fixture moved", "2026-03-14 08:00"), event("zero set", "2026-03-14 09:00")])).toEqual([]);
  });
  it("that concern one tool are verified by a check with that tool alone", () => {
    expect(since([event("new stylus", "2026-03-14 10:00", "reference tool")], [agreeing])).toEqual([
      ["new stylus, 2026-03-14 10:00", false],
    ]);
    expect(since([event("new stylus", "2026-03-14 10:00", "edge finder")], [agreeing])[0]?.[1]).toBe(false);
    expect(since([event("new stylus", "2026-03-14 10:00", "edge finder")], [along.X, along.Y])[0]?.[1]).toBe(true);
    // A changed tool is longer or shorter: what it shows along X says nothing of that, and what another tool shows along Z neither.
    expect(since([event("tool changed", "2026-03-14 10:00", "edge finder")], all)[0]?.[1]).toBe(false);
    expect(since([event("tool changed", "2026-03-14 10:00", "reference tool")], [along.Z])[0]?.[1]).toBe(true);
    expect(since([event("tool changed", "2026-03-14 10:00")], all)[0]?.[1]).toBe(false);
  });
  it("without a time are refused", () => {
    expect(problemsAt("events", (plate) => plate.events.push({ id: "bump", kind: "crash", when: "" }))).toEqual([
      "events.bump.when: the time is missing; expected a day and a time, such as 2026-03-14 16:20, got nothing.",
    ]);
  });
});

describe("chances of slips", () => {
  it.each(["0", "100 %", "-1", "often"])("%s is refused", (chance) => {
    expect(problemsAt("slipChances", (plate) => plate.slipChances.push({ id: "c", slip: "block", chance })).length).toBe(1);
  });
});
