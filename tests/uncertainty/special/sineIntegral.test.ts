import { expect, it } from "vitest";
import { sineIntegral } from "../../../lib/uncertainty/special/sineIntegral.ts";
import { specialReference } from "./specialFunctions.reference.ts";

it("sineIntegral(x) is within 2e-14 of mpmath", () => {
  for (const [x, value] of specialReference.sineIntegral) expect(Math.abs(sineIntegral(x) - value), `x = ${x}`).toBeLessThan(2e-14);
});
