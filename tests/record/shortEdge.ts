import { documentFrom } from "../properties/setups.ts";

/** Front edge touched in two places that lie `baseline` apart, with a scatter of `scatter`; the coordinates are turned to it. */
export function edge(baseline: number, scatter: number) {
  const common = { element: "front", travelling: "+Y", tool: "tip", z: "" };
  return documentFrom({
    title: "Edge",
    part: {
      elements: [
        { id: "front", kind: "face", outward: "-Y", datum: "A", y: "0" },
        { id: "left", kind: "face", outward: "-X", datum: "B", x: "0" },
      ],
    },
    tools: [{ id: "tip", kind: "touch probe", radius: "3", scatter: `${scatter}` }],
    touches: [
      { id: "1", ...common, readings: "-3", x: "0" },
      { id: "2", ...common, readings: "-3", x: `${baseline}` },
      { id: "3", element: "left", travelling: "+X", tool: "tip", readings: "-3", y: "50" },
    ],
    strategies: [
      { id: "turned", touches: ["1", "2", "3"], rotation: "applied" },
      { id: "straight", touches: ["1", "3"], rotation: "ignored" },
      { id: "straight by the other", touches: ["2", "3"], rotation: "ignored" },
    ],
    chosen: "turned",
  });
}
