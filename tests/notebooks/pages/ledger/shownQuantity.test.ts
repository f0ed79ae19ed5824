import { describe, expect, it } from "vitest";
import { angleDimension, dimensionless, lengthDimension } from "../../../../lib/formula/dimension.ts";
import { showQuantity } from "../../../../notebooks/pages/ledger/shownQuantity.ts";

const none = { unit: "", decimals: "" };
const length = (value: number, standardUncertainty: number, wish = none, unit: "mm" | "inch" = "mm") => {
  const { text, suffix, uncertainty, refusal } = showQuantity({ value, standardUncertainty }, lengthDimension, wish, unit);
  return [`${text}${suffix}`, uncertainty, refusal];
};

describe("showQuantity({ value, standardUncertainty }, dimension, wish, unit)", () => {
  it("rounds the value to its uncertainty of two digits (JCGM 100:2008, 7.2.6)", () => {
    expect(length(100.021_47, 0.000_354)).toEqual(["100.02147 mm", "0.00035", undefined]);
    expect(length(-318.3995, 0.003_62)).toEqual(["−318.3995 mm", "0.0036", undefined]);
  });

  it("writes what is next to nothing beside its doubt as nothing", () => {
    expect(length(7.1e-15, 0.008_87)).toEqual(["0.0000 mm", "0.0089", undefined]);
    expect(length(-7.1e-15, 0.008_87)).toEqual(["0.0000 mm", "0.0089", undefined]);
    expect(length(7.1e-15, 0)).toEqual(["7.10000e−15 mm", undefined, undefined]);
  });

  it("shows inches of 25.4 mm, and the unit that a cell wishes for", () => {
    expect(length(25.4, 0.0254, none, "inch")).toEqual(["1.0000 in", "0.0010", undefined]);
    expect(length(0.0127, 0.0005, { unit: "um", decimals: "" }, "inch")).toEqual(["12.70 um", "0.50", undefined]);
  });

  it("leaves no digit of a value without doubt out, and shows no rounding of an inch", () => {
    expect(length(318.399_512, 0)).toEqual(["318.399512 mm", undefined, undefined]);
    expect(length(0.1 * 25.4, 0, none, "inch")[0]).toBe("0.1 in");
  });

  it("takes the decimals that are wished for, and says what is wrong with others", () => {
    expect(length(12.345_67, 0.000_1, { unit: "", decimals: "2" })).toEqual(["12.35 mm", "0.00010", undefined]);
    expect(length(12.345_67, 0.000_1, { unit: "", decimals: "many" })[2]).toContain("expected a whole number from 0 to 15");
  });

  it("keeps to the usual unit where the wished one is of another kind or unknown, and says so", () => {
    expect(length(12.5, 0, { unit: "deg", decimals: "" })).toEqual([
      "12.5 mm",
      undefined,
      "“deg” is a unit of an angle, and this is a length.",
    ]);
    expect(length(12.5, 0, { unit: "furlong", decimals: "" })[2]).not.toBeUndefined();
  });

  it("shows angles in degrees, numbers without a unit, and what is too large or small for digits in powers of ten", () => {
    expect(showQuantity({ value: Math.PI / 2, standardUncertainty: 0 }, angleDimension, none, "mm")).toMatchObject({
      text: "90",
      suffix: "°",
    });
    expect(showQuantity({ value: 4, standardUncertainty: 0 }, dimensionless, none, "mm")).toMatchObject({ text: "4", suffix: "" });
    expect(length(1e30, 1e-20)[0]).toBe("1.00000e+30 mm");
    expect(length(-1e300, 1e300)[0]).toBe("−1.00000e+300 mm");
  });
});
