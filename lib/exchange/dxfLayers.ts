import type { DxfGroup } from "./dxfGroups.ts";

/** A layer of a drawing. */
export interface DrawnLayer {
  readonly name: string;
  /** Whether the drawing shows it: neither off nor frozen. */
  readonly isShown: boolean;
  /** Of what states none itself. */
  readonly lineType: string;
}

/** The layers that the section TABLES describes (DXF reference, from memory: 2 is the name, 6 the line type, a 62 below 0 off, the first bit of 70 frozen). */
export function dxfLayers(tables: readonly DxfGroup[]): readonly DrawnLayer[] {
  const starts = tables.flatMap(({ code }, i) => (code === 0 ? [i] : []));
  return starts.flatMap((start, i) => {
    if (tables[start]?.value !== "LAYER") return [];
    const groups = tables.slice(start + 1, starts[i + 1] ?? tables.length);
    const textOf = (code: number) => groups.find((group) => group.code === code)?.value ?? "";
    const isFrozen = (Number(textOf(70)) & 1) === 1;
    return [{ name: textOf(2), isShown: !isFrozen && !(Number(textOf(62)) < 0), lineType: textOf(6) }];
  });
}
