import { describe, expect, it } from "vitest";
import { writerOf } from "../../../notebooks/figures/displayUnit.ts";

describe("writerOf(unit)", () => {
  it("writes a value to the decimals of its uncertainty (JCGM 100:2008, 7.2.6)", () => {
    expect(writerOf("mm").withUncertainty(-318.4423, 0.00491)).toEqual({ value: "−318.4423", uncertainty: "0.0049", decimals: 4 });
  });
  it("takes an inch as 25.4 mm exactly (NIST SP 811, B.8)", () => {
    expect(writerOf("inch").stated(0.254)).toBe("0.01");
    expect(writerOf("inch").withUncertainty(25.4, 0.0254)).toEqual({ value: "1.0000", uncertainty: "0.0010", decimals: 4 });
  });
  it("takes radians to degrees", () => {
    expect(writerOf("degree").fixed(Math.PI / 6, 3)).toBe("30.000");
  });
  it("takes anything else by its symbol and factor", () => {
    const squares = writerOf({ symbol: "cm²", factor: 0.01 });
    expect([squares.stated(250), squares.suffix]).toEqual(["2.5", " cm²"]);
    expect(writerOf({ symbol: "", factor: 1 }).suffix).toBe("");
  });
  it("writes what a drawing states without noise or idle zeros", () => {
    const { stated, statedSigned } = writerOf("mm");
    expect([0.1 + 0.2, 120, 0.0123456789, -0.02, 1e-7, 0].map(stated)).toEqual(["0.3", "120", "0.0123457", "−0.02", "0.0000001", "0"]);
    expect([0.05, -0.05, 0].map(statedSigned)).toEqual(["+0.05", "−0.05", "0"]);
  });
  it("writes no sign before what rounds to nothing", () => {
    expect([1e-9, -1e-9].map((value) => writerOf("mm").signed(value, 3))).toEqual(["0.000", "0.000"]);
  });
});
