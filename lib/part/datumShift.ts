import { type DatumSystem, datumAlong, turnOf } from "./datumSystem.ts";
import { bonusOf, type LimitedSize, maximumMaterialSize } from "./maximumMaterial.ts";
import { basicPlace, type Element, type Part, rowOf } from "./part.ts";

/** Which datums of a system a drawing may reference at their maximum material, as they are stated. */
export const shiftingDatums = [
  "none",
  "primary",
  "secondary",
  "tertiary",
  "primary and secondary",
  "primary and tertiary",
  "secondary and tertiary",
  "all",
] as const;

/**
 * The shift that the size of a datum leaves where it is referenced at its maximum material (ISO 2692): the gauge stands at the maximum material size, and a feature
 * with less metal may lie anywhere about it within its departure. It moves all that goes by the system together and widens no zone: a shift is no bonus. A
 * geometrical tolerance of the datum feature itself would make gauge and shift larger by as much; it is not stated here, and not counted.
 */
export interface DatumShift {
  readonly system: string;
  /** The element that is the datum. */
  readonly datum: string;
  /** Its letter; empty for none. */
  readonly letter: string;
  readonly size: LimitedSize;
  /** Diameter of the gauge, mm. */
  readonly maximumMaterialSize: number;
  /** Largest diameter of the circle within which the axis may lie about the gauge's, at least material, mm; the smallest is 0. */
  readonly largest: number;
  /** Along which the datum fixes the place: both for a circle, one for as much along it alone, none where it only turns. */
  readonly axes: readonly ("X" | "Y")[];
  /** The other axis about which it turns what goes by the system, and the distance between both, mm. */
  readonly turns: { readonly about: string; readonly distance: number } | undefined;
  /** Rows of the drawing that it moves together. */
  readonly moves: readonly string[];
}

/** The shifts of all datum systems that the drawing's demands go by. */
export function datumShifts({ elements, characteristics }: Part): DatumShift[] {
  const known = new Map(elements.map((element) => [element.id, element]));
  const rows = new Map<DatumSystem, Set<string>>();
  for (const characteristic of characteristics) {
    const system = "datums" in characteristic ? characteristic.datums : undefined;
    if (system?.atMaximumMaterial === undefined) continue;
    rows.set(system, (rows.get(system) ?? new Set()).add(rowOf(characteristic)));
  }
  return [...rows].flatMap(([system, moves]) =>
    (system.atMaximumMaterial ?? []).flatMap((id): DatumShift[] => {
      const datum = known.get(id);
      if ((datum?.kind !== "bore" && datum?.kind !== "boss") || datum.diameterLimits === undefined) return [];
      const size: LimitedSize = { kind: datum.kind, nominal: datum.diameter, limits: datum.diameterLimits };
      const { lower, upper } = size.limits;
      const least = size.nominal + (size.kind === "bore" ? upper : lower);
      return [
        {
          system: system.id,
          datum: id,
          letter: datum.datum,
          size,
          maximumMaterialSize: maximumMaterialSize(size),
          largest: bonusOf(size, least),
          axes: (["X", "Y"] as const).filter((axis) => datumAlong(system, axis, known) === id),
          turns: turnedAbout(id, system, known),
          moves: [...moves],
        },
      ];
    }),
  );
}

function turnedAbout(id: string, system: DatumSystem, known: ReadonlyMap<string, Element>): DatumShift["turns"] {
  const pair = turnOf(system, known);
  if (pair?.[1] === undefined || !pair.includes(id)) return undefined;
  const about = pair[0] === id ? pair[1] : pair[0];
  const [here, there] = [known.get(id), known.get(about)];
  if (here === undefined || there === undefined) return undefined;
  const [a, b] = [basicPlace(here), basicPlace(there)];
  const distance = Math.hypot(a[0] - b[0], a[1] - b[1]);
  return distance > 0 ? { about, distance } : undefined;
}
