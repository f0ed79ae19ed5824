import type { Vector } from "../base/vector.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { Surface } from "./surface.ts";

/**
 * What is known about a touch: the tool's centre stood here, and the metal is
 * one reach away along the surface's normal. Lengths in mm.
 */
export interface Contact {
  readonly touch: string;
  readonly element: string;
  readonly tool: string;
  readonly surface: Surface;
  /** Mean place of the tool's centre (X, Y) or gauge line (Z), machine axes; 0 where a coordinate was not noted. */
  readonly centre: Vector;
  /** Machine coordinates of the metal that was touched, mm, and which of them are known; others are taken as 0 where the tool stood. */
  readonly metal: { readonly place: Vector; readonly known: readonly [boolean, boolean, boolean] };
  readonly noted: readonly [boolean, boolean, boolean];
  /** Unit vector along which the tool travelled, machine axes. */
  readonly travel: Vector;
  /** Error of the tool's place along its travel; its estimate is 0. */
  readonly advance: Uncertain;
  /** Distance from the tool's centre to the metal along the normal. */
  readonly reach: Uncertain;
  /** Standard uncertainty of what no other touch shares (scatter, display step), mm: of touches that disagree, the better ones count more. */
  readonly ownUncertainty: number;
  /** What the machine's own scale is off where the tool stood, along the travel; its estimate is 0 unless expansion is expected. */
  readonly scaleError: Uncertain;
  /** The same two for a touch that is still to come: same tool and face, fresh scatter. */
  readonly next: { readonly advance: Uncertain; readonly reach: Uncertain };
}
