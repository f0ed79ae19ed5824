/**
 * A corner, each face touched once by a radius of 3 mm: the left face reads -50 on the way to +X, the front face -70 on the way to +Y. By hand
 * (the face is one radius further along the way): X -50 + 3 = -47, Y -70 + 3 = -67.
 */
export const corner = {
  format: "datumbook",
  version: 1,
  unit: "mm",
  part: {
    elements: [
      { id: "left", kind: "face", outward: "-X", datum: "B", x: "0" },
      { id: "front", kind: "face", outward: "-Y", datum: "C", y: "0" },
      { id: "hole", kind: "bore", made: "here", x: "20", y: "15", diameter: "8", process: "0.01" },
    ],
    characteristics: [{ id: "hole", kind: "position", of: "hole", tolerance: "0.1" }],
  },
  tools: [{ id: "probe", kind: "touch probe", radius: "6 mm / 2", scatter: "0.002" }],
  touches: [
    { id: "left", element: "left", travelling: "+X", tool: "probe", readings: "-50" },
    { id: "front", element: "front", travelling: "+Y", tool: "probe", readings: "-70" },
  ],
  strategies: [{ id: "corner", touches: ["left", "front"] }],
  chosen: "corner",
};
