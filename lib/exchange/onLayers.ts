import type { ProposedLayer } from "./proposal.ts";
import type { ReadDrawing } from "./readDxf.ts";

/**
 * What of a drawing is on these layers; the other layers are listed as left out.
 *
 * @param chosen names; the layers that the drawing shows where undefined
 */
export function onLayers(
  drawing: ReadDrawing,
  chosen: readonly string[] | undefined,
): Omit<ReadDrawing, "layers"> & { readonly layers: readonly ProposedLayer[] } {
  const content = contentByLayer(drawing);
  const layers = drawing.layers.map(({ name, isShown }): ProposedLayer & { readonly isShown: boolean } => ({
    name,
    has: content.get(name) ?? "",
    isTaken: chosen?.includes(name) ?? isShown,
    isShown,
  }));
  const taken = new Set(layers.flatMap(({ name, isTaken }) => (isTaken ? [name] : [])));
  const isOn = ({ layer }: { readonly layer: string }) => taken.has(layer);
  return {
    unit: drawing.unit,
    circles: drawing.circles.filter(isOn),
    lines: drawing.lines.filter(isOn),
    arcs: drawing.arcs.filter(isOn),
    leftOut: [
      ...drawing.leftOut,
      ...layers.flatMap(({ name, has, isTaken, isShown }) =>
        isTaken
          ? []
          : [
              {
                at: `layer "${name}"`,
                what: `${has}: ${chosen === undefined && !isShown ? "the drawing does not show it" : "not chosen"}`,
              },
            ],
      ),
    ],
    layers: layers.map(({ name, has, isTaken }) => ({ name, has, isTaken })),
  };
}

/** By layer: `12 lines, 3 circles`. */
function contentByLayer({ circles, lines, arcs }: ReadDrawing): ReadonlyMap<string, string> {
  const words = new Map<string, string[]>();
  for (const [word, things] of [
    ["line", lines],
    ["circle", circles],
    ["arc", arcs],
  ] as const) {
    const counts = new Map<string, number>();
    for (const { layer } of things) counts.set(layer, (counts.get(layer) ?? 0) + 1);
    for (const [layer, count] of counts) words.set(layer, [...(words.get(layer) ?? []), `${count} ${count === 1 ? word : `${word}s`}`]);
  }
  return new Map([...words].map(([layer, all]) => [layer, all.join(", ")]));
}
