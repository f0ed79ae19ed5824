import type { MadeCorrection, MadeParts, MeasuredFeature } from "./madeParts.ts";

type Run = Pick<MadeParts, "measured" | "parts" | "corrections">;
type Components = readonly [x: number, y: number, z: number];

/** Whether a correction moves what a tool cuts: one of the work offset moves everything. */
export function moves({ tool }: MadeCorrection, cutBy: string): boolean {
  return tool === "" || tool === cutBy;
}

/** How far all corrections after one place of the run, and up to another, were to move what a tool cuts. */
export function changeBetween({ parts, corrections }: Run, cutBy: string, from: number, to: number): Components {
  const between = corrections.filter((each) => {
    const place = parts.indexOf(each.after);
    return place >= from && place < to && moves(each, cutBy);
  });
  const along = (axis: 0 | 1 | 2) => between.reduce((total, { change }) => total + (change[axis] ?? 0), 0);
  return [along(0), along(1), along(2)];
}

/** What was measured, as it would have come out with every correction that was made since: what the setup as it stands now would make. */
export function asCorrected(run: Run): (Omit<MeasuredFeature, "deviation"> & {
  readonly deviation: readonly [x: number | undefined, y: number | undefined, z: number | undefined];
})[] {
  return run.measured.map((feature) => {
    const [x, y, z] = changeBetween(run, feature.tool, run.parts.indexOf(feature.part), Number.POSITIVE_INFINITY);
    const [offX, offY, offZ] = feature.deviation;
    const corrected = (off: number | undefined, change: number) => (off === undefined ? undefined : off + change);
    return { ...feature, deviation: [corrected(offX, x), corrected(offY, y), corrected(offZ, z)] };
  });
}
