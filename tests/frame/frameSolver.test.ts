import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { addScaled, turnAboutZ, unitVector, type Vector } from "../../lib/base/vector.ts";
import type { Surface } from "../../lib/contacts/surface.ts";
import { type FrameContact, type FrameSize, solveFrame } from "../../lib/frame/solveFrame.ts";
import { certain } from "../../lib/uncertainty/uncertain.ts";

// Many evaluations a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

function touch(surface: Surface, centre: Vector, travel: Vector, reach: number, grows = false): FrameContact {
  return {
    surface,
    centre,
    travel,
    movements: grows ? [{ size: 0, shift: [0, 0, 0], growth: 0.5 }] : [],
    weight: 1,
    advance: certain(0),
    reach: certain(reach),
  };
}

function solved(contacts: readonly FrameContact[], sizes: readonly FrameSize[] = [], rotates = false) {
  const outcome = solveFrame(contacts, sizes, rotates);
  if (!outcome.ok) throw new Error(outcome.problems.map(({ what }) => what).join());
  return outcome.value;
}

const drawnDiameter: FrameSize = { mode: "preferred", scale: 0.1, given: certain(0) };
const top: Surface = { kind: "plane", point: [0, 0, 0], outward: [0, 0, 1] };
const leftFace: Surface = { kind: "plane", point: [0, 0, 0], outward: [-1, 0, 0] };
const bore: Surface = { kind: "bore", axis: [40, 30, 0], radius: 10 };

describe("solveFrame, one equation and one unknown", () => {
  const places = fc.integer({ min: -3_000_000, max: 3_000_000 }).map((micrometres) => micrometres / 1000);

  // F = R + a r (sign rule of the trade): no coordinate of a machine is too large for it.
  it("solveFrame(one touch of a face) finds it anywhere within three metres", () => {
    fc.assert(
      fc.property(places, places, fc.integer({ min: 500, max: 200_000 }), (x, z, reach) => {
        expect(solved([touch(leftFace, [x, 0, 0], [1, 0, 0], reach / 1000)]).origin[0].value).toBeCloseTo(x + reach / 1000, 9);
        expect(solved([touch(top, [x, 0, z], [0, 0, -1], reach / 1000)]).origin[2].value).toBeCloseTo(z - reach / 1000, 9);
      }),
      { numRuns: 300 },
    );
  });

  it("solveFrame(a skewed edge and a corner) finds them anywhere within three metres", () => {
    const front: Surface = { kind: "plane", point: [0, 0, 0], outward: [0, -1, 0] };
    fc.assert(
      fc.property(places, places, fc.integer({ min: -60, max: 60 }), (x, y, skew) => {
        const turn = skew / 1000;
        const at = (seen: Vector) => addScaled([x, y, 0], 1, turnAboutZ(seen, turn));
        const contacts = [
          touch(front, at([10, -3, 0]), [0, 1, 0], 3),
          touch(front, at([95, -3, 0]), [0, 1, 0], 3),
          touch(leftFace, at([-3, 25, 0]), [1, 0, 0], 3),
        ];
        const { origin, rotation } = solved(contacts, [], true);
        expect(origin[0].value).toBeCloseTo(x, 8);
        expect(origin[1].value).toBeCloseTo(y, 8);
        expect(rotation.value).toBeCloseTo(turn, 11);
      }),
      { numRuns: 100 },
    );
  });
});

// A bore of drawn diameter 20 at (40, 30) of the part, its axis at (100, 50) of the machine; a tool of radius 3 stops 7 from the axis.
describe("solveFrame, a bore touched in few places", () => {
  const at = (degrees: number): FrameContact => {
    const direction = turnAboutZ([1, 0, 0], (degrees * Math.PI) / 180);
    return touch(bore, addScaled([100, 50, 0], 7, direction), direction, 3, true);
  };

  it("solveFrame(one touch of a bore) places it along the travel with the drawn diameter", () => {
    const frame = solved([at(0)], [drawnDiameter]);
    expect(frame.origin[0].value).toBeCloseTo(60, 9);
    expect(frame.determined.slice(0, 2)).toEqual([true, false]);
  });

  it.each([30, 60, 90, 120, 150])(
    "solveFrame(two touches of a bore %d degrees apart) keeps the drawn diameter and finds the axis",
    (apart) => {
      const frame = solved([at(0), at(apart)], [drawnDiameter]);
      expect(frame.sizes[0]?.value).toBeCloseTo(0, 9);
      expect(frame.origin[0].value).toBeCloseTo(60, 9);
      expect(frame.origin[1].value).toBeCloseTo(20, 9);
    },
  );

  it("solveFrame(two opposite touches of a bore) measures its diameter, and leaves the cross direction open", () => {
    const frame = solved([at(0), at(180)], [drawnDiameter]);
    expect(frame.origin[0].value).toBeCloseTo(60, 9);
    expect(frame.determined.slice(0, 2)).toEqual([true, false]);
    expect(frame.sizesDetermined).toEqual([true]);
  });

  it("solveFrame(three touches of a bore) measures axis and diameter from any three places", () => {
    const angle = fc.integer({ min: 0, max: 359 });
    fc.assert(
      fc.property(angle, fc.integer({ min: 15, max: 170 }), fc.integer({ min: 15, max: 170 }), (start, first, second) => {
        const frame = solved([at(start), at(start + first), at(start + first + second)], [drawnDiameter]);
        expect(frame.origin[0].value).toBeCloseTo(60, 7);
        expect(frame.origin[1].value).toBeCloseTo(20, 7);
        expect(frame.sizes[0]?.value).toBeCloseTo(0, 7);
      }),
      { numRuns: 150 },
    );
  });

  it("solveFrame(a boss touched at 0 and 90 degrees) keeps the drawn diameter and finds the axis", () => {
    const boss: Surface = { kind: "boss", axis: [40, 30, 0], radius: 10 };
    const touches = (["+X", "+Y"] as const).map((side) =>
      touch(boss, addScaled([100, 50, 0], 13, unitVector(side)), addScaled([0, 0, 0], -1, unitVector(side)), 3, true),
    );
    const frame = solved(touches, [drawnDiameter]);
    expect(frame.origin[0].value).toBeCloseTo(60, 9);
    expect(frame.origin[1].value).toBeCloseTo(20, 9);
  });
});

// A flange lies on the table as it comes: the turn is found from two bores (turn of their line of centres: plain geometry).
describe("solveFrame, two bores and a turn", () => {
  const second: Surface = { kind: "bore", axis: [150, 55, 0], radius: 10 };

  const findsTheTurn = (degrees: number, start: number, sizes: readonly FrameSize[] = []): void => {
    const turn = (degrees * Math.PI) / 180;
    const contacts = ([bore, second] as const).flatMap((surface, size) => {
      const movements = sizes.length > 0 ? [{ size, shift: [0, 0, 0] as Vector, growth: 0.5 }] : [];
      const axis = addScaled([-250, -180, 0], 1, turnAboutZ((surface as { axis: Vector }).axis, turn));
      return [0, 120, 240].map((angle) => {
        const direction = turnAboutZ([1, 0, 0], ((start + angle) * Math.PI) / 180);
        return { ...touch(surface, addScaled(axis, 7, direction), direction, 3), movements };
      });
    });
    const { origin, rotation } = solved(contacts, sizes, true);
    expect(Math.cos(rotation.value - turn)).toBeCloseTo(1, 12);
    expect(Math.sin(rotation.value - turn)).toBeCloseTo(0, 10);
    expect(origin[0].value).toBeCloseTo(-250, 8);
    expect(origin[1].value).toBeCloseTo(-180, 8);
  };

  it.each([0, 1, 5, 10, 30, 90, 180, -45])("solveFrame(two bores of a part turned by %d degrees) finds the turn", (degrees) => {
    findsTheTurn(degrees, 20);
  });

  const angles = fc.integer({ min: -179, max: 180 });

  it("solveFrame(two bores of a part turned by any angle) finds the turn", () => {
    const property = fc.property(angles, angles, (degrees, start) => findsTheTurn(degrees, start));
    fc.assert(property, { numRuns: 100 });
  });

  it("solveFrame(two bores of a part turned by any angle, drawn diameters preferred) finds the turn", () => {
    const property = fc.property(angles, angles, (degrees, start) => findsTheTurn(degrees, start, [drawnDiameter, drawnDiameter]));
    fc.assert(property, { numRuns: 100 });
  });
});

describe("solveFrame, what stays free", () => {
  it("solveFrame(one bore, turning) leaves a turn about the bore's axis", () => {
    const contacts = [10, 100, 190, 280].map((angle) => {
      const direction = turnAboutZ([1, 0, 0], (angle * Math.PI) / 180);
      return touch(bore, addScaled([100, 50, 0], 7, direction), direction, 3);
    });
    const words = solved(contacts, [], true).freeMotions.map((motion) => motion.words);
    expect(words).toContain("a turn about Z at X 100.0, Y 50.0");
  });
});
