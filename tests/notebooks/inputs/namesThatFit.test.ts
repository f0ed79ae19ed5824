import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { namesThatFit } from "../../../notebooks/inputs/namesThatFit.ts";

const offers = (...names: string[]) => names.map((name) => ({ name, about: () => "" }));
const fitting = (typed: string, ...names: string[]) => namesThatFit(typed, offers(...names)).map(({ name }) => name);

describe("namesThatFit(typed, offers)", () => {
  it("has first those that begin so, then those of which a later word does, then those that hold it", () => {
    expect(fitting("rad", "probe_radius", "Radius", "gradient", "radius", "length")).toEqual([
      "radius",
      "Radius",
      "probe_radius",
      "gradient",
    ]);
  });

  it("leaves out what is typed in full, and what holds only a letter or two of it", () => {
    expect(fitting("zero", "zero", "zero_X")).toEqual(["zero_X"]);
    expect(fitting("ro", "zero", "row")).toEqual(["row"]);
  });

  it("offers everything, in its order, while nothing is typed", () => {
    expect(fitting("", "b", "a")).toEqual(["b", "a"]);
  });

  it("offers every name that begins with what is typed, each once, and nothing that does not hold it", () => {
    const name = fc.stringMatching(/^[abAB]{1,3}(_[abAB]{1,3}){0,2}$/);
    fc.assert(
      fc.property(fc.uniqueArray(name), fc.stringMatching(/^[abAB]{1,3}$/), (names, typed) => {
        const found = fitting(typed, ...names);
        expect(new Set(found).size).toBe(found.length);
        for (const each of names) {
          if (each !== typed && each.startsWith(typed)) expect(found).toContain(each);
          if (!each.toLowerCase().includes(typed.toLowerCase())) expect(found).not.toContain(each);
        }
        const begins = found.map((each) => each.startsWith(typed));
        expect(begins).toEqual([...begins].sort((a, b) => Number(b) - Number(a)));
      }),
    );
  });
});
