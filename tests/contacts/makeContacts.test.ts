import { describe, expect, it } from "vitest";
import type { Contact } from "../../lib/contacts/contact.ts";
import { locatePart } from "../../lib/datum/locatePart.ts";
import { readSetup } from "../../lib/document/readSetup.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { documentFrom, must, open } from "../properties/setups.ts";

const probe = { id: "tip", kind: "touch probe", radius: "3", scatter: "0.002" };

function setup(elements: object[], touches: object[], more: object = {}): SetupDocument {
  const named = touches.map((touch, i) => ({ id: `t${i}`, tool: "tip", ...touch }));
  return documentFrom({
    part: { elements },
    tools: [probe],
    touches: named,
    strategies: [{ id: "s", touches: named.map(({ id }) => id) }],
    ...more,
  });
}

function zeroOf(document: SetupDocument, axis: 0 | 1 | 2) {
  const { strategies } = evaluateSetup(document);
  return must(must((strategies[0] as (typeof strategies)[number]).evaluation).zero[axis]);
}

const bore = { id: "bore", kind: "bore", diameter: "20", datum: "A" };
const boss = { id: "boss", kind: "boss", diameter: "20", datum: "A" };

function onCircle(reach: number, degrees: readonly number[]): object[] {
  return degrees.map((angle) => {
    const t = (angle * Math.PI) / 180;
    return { travelling: "radial", readings: `X${(100 + reach * Math.cos(t)).toFixed(9)} Y${(50 + reach * Math.sin(t)).toFixed(9)}` };
  });
}

describe("makeContacts, radial touches", () => {
  // The tool travels along the radius of the wall, however the touches are spread over it.
  it.each([[[0, 90, 180, 270]], [[0, 90, 180]], [[10, 40, 70]], [[-15, 0, 15]]])(
    "makeContacts(radial touches of a bore at %j degrees) travel outwards along the radius",
    (degrees) => {
      const touches = onCircle(7, degrees).map((touch) => ({ ...touch, element: "bore" }));
      const { contacts } = open(setup([bore], touches)).location;
      contacts.forEach(({ travel }, i) => {
        const t = ((degrees[i] as number) * Math.PI) / 180;
        expect(travel).toEqual([expect.closeTo(Math.cos(t), 6), expect.closeTo(Math.sin(t), 6), 0]);
      });
    },
  );

  it("makeContacts(radial touches of a boss) travel inwards along the radius", () => {
    const degrees = [-30, 0, 45];
    const touches = onCircle(13, degrees).map((touch) => ({ ...touch, element: "boss" }));
    const { contacts } = open(setup([boss], touches)).location;
    contacts.forEach(({ travel }: Contact, i: number) => {
      const t = ((degrees[i] as number) * Math.PI) / 180;
      expect(travel).toEqual([expect.closeTo(-Math.cos(t), 6), expect.closeTo(-Math.sin(t), 6), 0]);
    });
  });

  // Lost motion, E = (b/2)(d_use - d_touch): every touch at these angles moved + along X, so that all of them shift the axis alike.
  it.each([
    ["+", 0],
    ["-", 0.006],
    ["", 0.003],
  ])(
    "makeContacts(radial touches that all moved + along X) leave the lost motion of X when it works %j: at most %d",
    (working, expected) => {
      const machine = { lostMotion: { x: "0.006" }, working: { x: working } };
      const touches = onCircle(7, [-50, 10, 65]).map((touch) => ({ ...touch, element: "bore" }));
      const budget = zeroOf(setup([bore], touches, { machine }), 0);
      expect(budget.contributions.find(({ source }) => source.id === "machine, lost motion X")?.reach ?? 0).toBeCloseTo(expected, 8);
    },
  );

  it("makeContacts(four radial touches round a bore) leave half the lost motion, whatever the first angle", () => {
    for (const start of [0, 5, 30]) {
      const machine = { lostMotion: { x: "0.006" }, working: { x: "-" } };
      const degrees = [0, 90, 180, 270].map((angle) => start + angle);
      const touches = onCircle(7, degrees).map((touch) => ({ ...touch, element: "bore" }));
      const budget = zeroOf(setup([bore], touches, { machine }), 0);
      expect(budget.contributions.find(({ source }) => source.id === "machine, lost motion X")?.reach ?? 0).toBeCloseTo(0.003, 6);
    }
  });
});

describe("makeContacts, a swept indicator", () => {
  const dial = { id: "tip", kind: "swept indicator", scatter: "0.001" };
  const swept = (tool: object, element: object, more: object = {}) =>
    setup([element], [{ element: "bore", travelling: "sweep", readings: "X100 Y50" }], { tools: [{ ...dial, ...tool }], ...more });

  // Half the difference of two readings on opposite sides: what is the same on every side cancels, as the radius does in a mid-plane.
  it("makeContacts(sweep) finds the axis free of what is the same on every side: late trigger, roughness of the wall", () => {
    const budget = zeroOf(swept({ lateTrigger: "0.006" }, { ...bore, roughness: "0.004" }), 0);
    expect(budget.contributions.map(({ source }) => source.id)).toEqual(["touch t0, scatter X"]);
    expect(budget.standardUncertainty).toBeCloseTo(0.001, 12);
  });

  it("makeContacts(sweep) finds the axis free of the indicator's own distance from the spindle axis", () => {
    expect(zeroOf(swept({ eccentricity: "0.5" }, bore), 0).standardUncertainty).toBeCloseTo(0.001, 12);
  });

  // A sweep is not made by a move of X or Y: the mean direction of touching is 0 and E = b/2, whichever way the axis works.
  it.each(["", "+", "-"])("makeContacts(sweep) leaves half the lost motion when the axis works %j", (working) => {
    const machine = { lostMotion: { x: "0.006" }, working: { x: working } };
    const budget = zeroOf(swept({}, bore, { machine }), 0);
    expect(budget.contributions.find(({ source }) => source.id === "machine, lost motion X")?.reach ?? 0).toBeCloseTo(0.003, 12);
  });
});

describe("makeContacts, touches that need thought", () => {
  // The length is measured down from the gauge line, so the tip is below it: a face over the tip cannot be one length above the line.
  it("makeContacts(a touch upwards) does not put the face one tool length above the gauge line", () => {
    const document = setup(
      [{ id: "under", kind: "face", outward: "-Z", datum: "A" }],
      [{ element: "under", travelling: "+Z", readings: "-300" }],
      {
        tools: [{ ...probe, length: "120" }],
      },
    );
    const { location, problems, faces } = evaluateSetup(document);
    const told = [...problems, ...location.problems];
    expect(told.length > 0 || faces.every(({ budget }) => budget.value < -300)).toBe(true);
  });

  it("makeContacts(a bore touched along X, Y not noted) asks for the Y, since a round wall bends away", () => {
    const elements = [
      { ...bore, x: "40", y: "30" },
      { id: "front", kind: "face", outward: "-Y", datum: "B" },
    ];
    const touches = [
      { element: "bore", travelling: "-X", readings: "93" },
      { element: "bore", travelling: "+X", readings: "107" },
      { element: "front", travelling: "+Y", readings: "-203" },
    ];
    const { setup: read, problems } = readSetup(setup(elements, touches));
    const location = locatePart(read);
    const told = [...problems, ...location.problems].map(({ at }) => at);
    expect(told.some((at) => at.startsWith("touches.t0"))).toBe(true);
  });

  it("makeContacts(a tool travelling away from the metal) is refused with the direction that would do", () => {
    const { problems } = evaluateSetup(
      setup([{ id: "left", kind: "face", outward: "-X", datum: "A" }], [{ element: "left", travelling: "-X", readings: "1" }]),
    );
    expect(problems[0]).toMatchObject({ at: "touches.t0.travelling", expected: "travelling +X", got: "-X" });
  });

  // A bore about (40, 30): at its +X side the tool can only have been travelling +X.
  it("makeContacts(a bore touched towards its axis) says that the tool moves away from the wall", () => {
    const place = (x: number, y: number, axis: "X" | "Y", travelling: string) => ({
      element: "bore",
      travelling,
      readings: String(axis === "X" ? x : y),
      ...(axis === "X" ? { y: String(y) } : { x: String(x) }),
    });
    const rest = [place(40, 37, "Y", "+Y"), place(33, 30, "X", "-X"), place(40, 23, "Y", "-Y")];
    const told = (travelling: string) => {
      const document = setup([{ ...bore, x: "40", y: "30" }], [place(47, 30, "X", travelling), ...rest]);
      return evaluateSetup(document).problems.map(({ at }) => at);
    };
    expect(told("-X")).toEqual(["touches.t0.travelling"]);
    expect(told("+X")).toEqual([]);
  });
});

describe("a round wall that is touched along an axis beside its own", () => {
  const radians = (degrees: number) => (degrees * Math.PI) / 180;
  // The tool's centre on the circle of radius 10 - 3 about (100, 50).
  const at = (degrees: number, travelling: string) => {
    const [x, y] = [(100 + 7 * Math.cos(radians(degrees))).toFixed(9), (50 + 7 * Math.sin(radians(degrees))).toFixed(9)];
    const isX = travelling.endsWith("X");
    return { element: "bore", travelling, readings: isX ? x : y, ...(isX ? { y } : { x }) };
  };
  const machine = { displayStep: "0.001", lostMotion: { x: "0.004", y: "0.006", z: "0" } };
  const eccentric = [{ ...probe, eccentricity: "0.002" }];

  // Plane geometry: at 40 degrees off the axis a place that is off across counts tan 40 of one that is off along the travel; aimed at the axis, nothing.
  it("counts what is off across by the tangent of the angle, and where it is aimed at the axis not at all", () => {
    const touches = [at(40, "+X"), at(90, "+Y"), at(180, "-X"), at(-90, "-Y")];
    const { contacts } = open(setup([bore], touches, { machine, tools: eccentric })).location;
    const share = (i: number, id: string) => {
      const budget = budgetOf((contacts[i] as Contact).advance);
      const k = budget.sources.findIndex((source) => source.id === id);
      return k < 0 ? 0 : Math.abs(budget.sensitivities[k] as number);
    };
    expect(share(0, "tool tip, eccentricity X")).toBeCloseTo(1, 6);
    for (const id of ["tool tip, eccentricity Y", "touch t0, lost motion across", "touch t0, display step across"])
      expect([id, share(0, id)]).toEqual([id, expect.closeTo(Math.tan(radians(40)), 6)]);
    for (const i of [1, 2, 3]) expect(share(i, `touch t${i}, lost motion across`)).toBe(0);
  });

  it("is refused where the tip would slide along it", () => {
    const { problems } = evaluateSetup(setup([bore], [at(70, "+X"), at(90, "+Y"), at(180, "-X"), at(-90, "-Y")]));
    expect(problems[0]).toMatchObject({ at: "touches.t0.travelling", got: "+X" });
    expect(problems[0]?.what).toContain('meets the wall of "bore" at less than 30 degrees, and slides along it');
  });
});
