import { evaluateSetup, type SetupEvaluation } from "../../lib/evaluateSetup.ts";
import { documentFrom } from "../properties/setups.ts";

/** A bore of 40 mm touched at its four quarters by a stylus of radius 3 and scatter 0.001, the touch to the right `off` mm from where it should be. */
export function boreOfFour(off: number): SetupEvaluation {
  const places = [17 + off, -17];
  return evaluateSetup(
    documentFrom({
      part: {
        elements: [
          { id: "bore", kind: "bore", diameter: "40", datum: "A", x: "0", y: "0" },
          { id: "hole", kind: "bore", made: "here", diameter: "8", x: "30", y: "0" },
        ],
        characteristics: [{ id: "p", kind: "position", of: "hole", tolerance: "0.2" }],
      },
      tools: [{ id: "probe", kind: "touch probe", radius: "3", radiusUncertainty: "0.001", scatterFrom: "stated", scatter: "0.001" }],
      touches: [
        ...places.map((x, i) => ({
          id: `x${i}`,
          element: "bore",
          travelling: i === 0 ? "+X" : "-X",
          tool: "probe",
          readings: `${x}`,
          y: "0",
        })),
        ...[17, -17].map((y, i) => ({
          id: `y${i}`,
          element: "bore",
          travelling: i === 0 ? "+Y" : "-Y",
          tool: "probe",
          readings: `${y}`,
          x: "0",
        })),
      ],
      strategies: [{ id: "bore", touches: ["x0", "x1", "y0", "y1"], zero: { x: "bore", y: "bore" } }],
      chosen: "bore",
    }),
  );
}
