import { failure, type Outcome, success } from "../base/outcome.ts";
import { digitsOf, type LengthUnit, scaled, type TypedLength, type UnitScale } from "./lengthText.ts";
import { childNamed, childText, nodesNamed, type XmlNode } from "./readXml.ts";

/** A unit of length by the names that documents use, and its metres. */
const units: readonly (UnitScale & { readonly names: readonly string[]; readonly metres: number })[] = [
  { names: ["mm", "millimeter", "millimetre"], metres: 0.001, unit: "mm" },
  { names: ["cm", "centimeter", "centimetre"], metres: 0.01, unit: "mm", power: 1 },
  { names: ["m", "meter", "metre"], metres: 1, unit: "mm", power: 3 },
  { names: ["um", "\u00b5m", "\u03bcm", "micrometer", "micrometre", "micron"], metres: 1e-6, unit: "mm", power: -3 },
  { names: ["in", "inch"], metres: 0.0254, unit: "inch" },
  { names: ["ft", "foot"], metres: 0.3048, unit: "inch", times: 12 },
];

/** The units of length of a QIF document (ISO 23952; element names from memory): the primary one, and those that a value names by itself. */
export class QifUnits {
  private readonly scales: ReadonlyMap<string, UnitScale>;
  private readonly own: UnitScale;

  private constructor(scales: ReadonlyMap<string, UnitScale>, own: UnitScale) {
    this.scales = scales;
    this.own = own;
  }

  /** Refused where the primary unit is missing or not known, and where a unit's name and its factor say different things. */
  static of(root: XmlNode): Outcome<QifUnits> {
    const stated = childNamed(root, "FileUnits");
    const scales = new Map<string, UnitScale>();
    for (const linear of stated === undefined ? [] : nodesNamed(stated, "LinearUnit")) {
      const name = nameOf(linear);
      const scale = scaleOf(name, factorOf(linear));
      if (scale === "contradicted")
        return failure({
          at: `line ${linear.line}`,
          what: `the unit "${name}" has a factor that is none of its own`,
          expected: "the name and the factor of one unit",
          got: childText(childNamed(linear, "UnitConversion"), "Factor"),
          remedy: "export the document again",
        });
      if (scale !== undefined) scales.set(name, scale);
    }
    const primary = childNamed(childNamed(stated, "PrimaryUnits"), "LinearUnit");
    const own = primary && scales.get(nameOf(primary));
    return own === undefined
      ? failure({
          at: "FileUnits",
          what: "the unit of length is not stated, or is none that is read",
          expected: "mm or inch as the name of the primary unit of length",
          ...(primary !== undefined && { got: nameOf(primary).slice(0, 80) }),
        })
      : success(new QifUnits(scales, own));
  }

  get primary(): LengthUnit {
    return this.own.unit;
  }

  /** The length; undefined where the unit that it names is not known. */
  length(digits: string, unit: string | undefined): TypedLength | undefined {
    const scale = unit === undefined ? this.own : (this.scales.get(plain(unit)) ?? named(plain(unit)));
    return scale && { digits: scaled(digits, scale), unit: scale.unit };
  }
}

function nameOf(linear: XmlNode): string {
  return plain(childText(linear, "UnitName") || linear.text);
}

function plain(name: string): string {
  return name.trim().toLowerCase();
}

function factorOf(linear: XmlNode): number | undefined {
  const digits = digitsOf(childText(childNamed(linear, "UnitConversion"), "Factor"));
  return digits === undefined ? undefined : Number(digits);
}

function named(name: string): (typeof units)[number] | undefined {
  return units.find(
    ({ names }) => names.includes(name) || names.includes(name.replace(/s$/, "")) || (name === "inches" && names.includes("inch")),
  );
}

/** By its name, whose factor must be that of the unit, to metres or from them; by its factor alone where the name is of the document's own making. */
function scaleOf(name: string, factor: number | undefined): UnitScale | "contradicted" | undefined {
  const isFactorOf = (metres: number) => factor !== undefined && [metres, 1 / metres].some((each) => Math.abs(factor / each - 1) < 1e-9);
  const known = named(name);
  if (known === undefined) return units.find(({ metres }) => factor !== undefined && Math.abs(factor / metres - 1) < 1e-9);
  return factor === undefined || isFactorOf(known.metres) ? known : "contradicted";
}
