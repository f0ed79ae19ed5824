import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wordAt } from "../../lib/formula/wordAt.ts";

/** The caret stands at the stroke. */
const at = (text: string) => wordAt(text.replace("|", ""), text.indexOf("|"));

// What stands where follows from the grammar of formulas: a unit only behind a number, no name behind a number or a word.
describe("wordAt(text, caret)", () => {
  it("finds the name that is being typed, as far as the caret, and all of it to replace", () => {
    expect(at("2 * left_fa|")).toEqual({ word: "left_fa", start: 4, end: 11, kind: "name" });
    expect(at("(left| + b)")).toEqual({ word: "left", start: 1, end: 5, kind: "name" });
    expect(at("le|ft_face - 1")).toEqual({ word: "le", start: 0, end: 9, kind: "name" });
    expect(at("höhe_1|")?.word).toBe("höhe_1");
  });

  it("finds a unit behind a number", () => {
    expect(at("12.5 m|")).toEqual({ word: "m", start: 5, end: 6, kind: "unit" });
    expect(at("12,5u|")).toEqual({ word: "u", start: 4, end: 5, kind: "unit" });
  });

  it("finds a name behind what parts a statement", () => {
    expect(at("3 mm within pla|")).toEqual({ word: "pla", start: 12, end: 15, kind: "name" });
    expect(at("from lo|")?.word).toBe("lo");
    expect(at("from low to hi|")?.word).toBe("hi");
    expect(at("play not below le|")?.word).toBe("le");
    expect(at("play not be|")).toBeUndefined();
    expect(at("below be|")).toBeUndefined();
  });

  it("finds an empty word where one could begin", () => {
    expect(at("|")).toEqual({ word: "", start: 0, end: 0, kind: "name" });
    expect(at("a + |")).toEqual({ word: "", start: 4, end: 4, kind: "name" });
    expect(at("12 |")).toEqual({ word: "", start: 3, end: 3, kind: "unit" });
  });

  it("finds nothing within or at the end of a number, and nothing behind a word", () => {
    expect(at("12.|5")).toBeUndefined();
    expect(at("12.5|")).toBeUndefined();
    expect(at("width |")).toBeUndefined();
    expect(at("width hei|")).toBeUndefined();
  });

  it("whatever is typed, the word stands at the caret, and nothing but it is replaced", () => {
    const piece = fc.constantFrom("left", "b_2", "12.5", "3", " ", "+", "(", ")", "mm", "±", "é", "μm", "; ", "\n", "1e3");
    fc.assert(
      fc.property(fc.array(piece), fc.nat(), (pieces, place) => {
        const text = pieces.join("");
        const caret = place % (text.length + 1);
        const found = wordAt(text, caret);
        if (found === undefined) return;
        expect(text.slice(found.start, caret)).toBe(found.word);
        expect(found.end).toBeGreaterThanOrEqual(caret);
        expect(/[+(); ]/.test(text.slice(found.start, found.end))).toBe(false);
      }),
    );
  });
});
