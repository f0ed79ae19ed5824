import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Axis, axes } from "../base/vector.ts";
import { type OffsetRegister, readRegister } from "../offsets/offsetRegister.ts";
import { digitsOf, type TypedLength } from "./lengthText.ts";
import type { LeftOut } from "./proposal.ts";
import type { ReadPosition } from "./readScreenLines.ts";
import { childNamed, nodesNamed, type XmlNode } from "./readXml.ts";

/** What a register of work offsets holds, mm. */
export interface ReadRegister {
  readonly at: string;
  readonly register: string;
  readonly values: ReadonlyMap<Axis, TypedLength>;
}

export interface ReadStreams {
  readonly positions: readonly ReadPosition[];
  readonly registers: readonly ReadRegister[];
  /** Of the tables of work offsets; everything else that is left out stands in `leftOut`. */
  readonly leftOutOfRegisters: readonly LeftOut[];
  /** When the document was made, as its header says; empty where it does not. */
  readonly when: string;
  readonly leftOut: readonly LeftOut[];
}

/** Of positions: where the machine is, and where it was when a probe triggered. Others say where it is told to go. */
const subTypes: readonly string[] = ["", "ACTUAL", "PROBE"];
const mostPositions = 1000;
/** An element in the representation TABLE has that word behind its type. */
const offsetTable = /^Work(?:piece)?Offsets?Table$/;

/**
 * A streams document of MTConnect (ANSI/MTC1.4, part 3, element and attribute names from memory; any version): `Position` samples of the linear axes named X, Y and
 * Z, `PathPosition` samples with three numbers, and tables of work offsets with an entry for each register. Values are in millimetres, the unit of the standard.
 *
 * Where every axis is told once, as by `current`, the latest of each are one position, whatever their times. Otherwise a position is made of samples with the very same
 * time and subtype, and an axis that is told alone is left out: the others have not moved, or have not been told. Everything else in the document is told by its kind and left out.
 */
export function readMtconnect(root: XmlNode): Outcome<ReadStreams> {
  if (root.name !== "MTConnectStreams")
    return failure({
      at: `line ${root.line}`,
      what: `the document is ${root.name}`,
      expected: "MTConnectStreams",
      remedy: "ask the agent for current or sample",
    });
  const reader = new StreamsReader();
  nodesNamed(root, "DeviceStream").forEach((device, d) => {
    for (const component of nodesNamed(device, "ComponentStream"))
      for (const category of component.children)
        for (const observation of category.children) reader.read(observation, component, String(d));
  });
  return success({ ...reader.found(), when: childNamed(root, "Header")?.attributes.get("creationTime") ?? "" });
}

class StreamsReader {
  private readonly samples: AxisSample[] = [];
  private readonly paths: (ReadPosition & { readonly subType: string })[] = [];
  private readonly registers: ReadRegister[] = [];
  private readonly leftOut: LeftOut[] = [];
  private readonly leftOutOfRegisters: LeftOut[] = [];
  private readonly others = new Map<string, { line: number; count: number }>();

  read(observation: XmlNode, component: XmlNode, device: string): void {
    const { name, line } = observation;
    if (offsetTable.test(name)) this.readTable(observation);
    else if (name === "Position" || name === "PathPosition") this.readPosition(observation, component, device);
    else this.others.set(name, { line: this.others.get(name)?.line ?? line, count: (this.others.get(name)?.count ?? 0) + 1 });
  }

  found(): Omit<ReadStreams, "when"> {
    const together = [...this.paths, ...this.gathered()].sort((a, b) => lineOf(a) - lineOf(b));
    const subTypesTold = new Set(together.map(({ subType }) => subType));
    const positions = together.map(
      ({ subType, ...position }): ReadPosition =>
        subTypesTold.size === 1
          ? position
          : {
              ...position,
              doubt: [
                position.doubt,
                `the stream tells ${[...subTypesTold].map((each) => each || "plain").join(" and ")} positions, and this one is ${subType || "plain"}`,
              ]
                .filter((doubt) => doubt !== undefined)
                .join("; "),
            },
    );
    const surplus = positions.length - mostPositions;
    return {
      positions: positions.slice(0, mostPositions),
      registers: this.registers,
      leftOutOfRegisters: this.leftOutOfRegisters,
      leftOut: [
        ...this.leftOut,
        ...(surplus > 0 ? [{ at: "", what: `${surplus} positions beyond ${mostPositions}: a stream of a movement, not of touches` }] : []),
        ...[...this.others].map(([name, { line, count }]) => ({
          at: `line ${line}`,
          what: `${name}${count > 1 ? `, ${count} times` : ""}: no place in a setup`,
        })),
      ],
    };
  }

  private readPosition(observation: XmlNode, component: XmlNode, device: string): undefined {
    const { name, attributes, text } = observation;
    const subType = attributes.get("subType") ?? "";
    const leave = (why: string) => this.leave(observation, `${[name, subType, text].filter(Boolean).join(" ")}: ${why}`);
    if (!subTypes.includes(subType)) return leave("where the machine is told to be, not where it is");
    const time = attributes.get("timestamp") ?? "";
    const digits = text.split(/\s+/).map(digitsOf);
    if (digits.length !== (name === "Position" ? 1 : 3) || digits.includes(undefined))
      return leave(name === "Position" ? "no number" : "not three numbers");
    if (name === "PathPosition") {
      const values = new Map(axes.map((axis, i) => [axis, { digits: digits[i] as string, unit: "mm" }] as const));
      this.paths.push({ at: `line ${observation.line}`, label: "", values, subType });
      return undefined;
    }
    const called = component.attributes.get("name") ?? "";
    const axis = axes.find((each) => each === called.toUpperCase());
    if (axis === undefined) return leave(`of component "${called}", which is not X, Y or Z`);
    this.samples.push({ node: observation, device, subType, time, axis, digits: digits[0] as string });
    return undefined;
  }

  /** Samples of single axes as positions. */
  private gathered(): (ReadPosition & { readonly subType: string })[] {
    const all = groupedBy(this.samples, ({ device, subType }) => JSON.stringify([device, subType]));
    return [...all.values()].flatMap((samples) => {
      const told = new Set(samples.map(({ axis }) => axis));
      if (told.size === samples.length) {
        const times = new Set(samples.map(({ time }) => time));
        const position = positionOf(samples);
        return times.size === 1
          ? [position]
          : [{ ...position, doubt: `its axes were told at ${times.size} times: it is where the machine came to stand` }];
      }
      return [...groupedBy(samples, ({ time }) => time).values()].flatMap((at) => {
        const seen = new Set<Axis>();
        const unique = at.filter((sample) => {
          const isFirst = !seen.has(sample.axis);
          if (!isFirst) this.leave(sample.node, `${sample.axis} ${sample.digits}: a second ${sample.axis} at the same time`);
          seen.add(sample.axis);
          return isFirst;
        });
        if (unique.length === told.size) return [positionOf(unique)];
        for (const { node, axis, digits } of unique)
          this.leave(
            node,
            `${axis} ${digits}: ${[...told].filter((each) => unique.every((sample) => sample.axis !== each)).join(" and ")} is not told at the same time`,
          );
        return [];
      });
    });
  }

  private readTable(table: XmlNode): void {
    if (table.children.length === 0)
      this.leftOutOfRegisters.push({ at: `line ${table.line}`, what: `${table.name} ${table.text || "without entries"}: no work offsets` });
    for (const entry of table.children) this.readEntry(entry);
  }

  /** `<Entry key="G54"><Cell key="X">-412.607</Cell> ...`. */
  private readEntry(entry: XmlNode): undefined {
    const leave = ({ line }: XmlNode, what: string): undefined => {
      this.leftOutOfRegisters.push({ at: `line ${line}`, what });
      return undefined;
    };
    const key = entry.attributes.get("key") ?? "";
    const register = registerOfKey(key);
    if (entry.name !== "Entry" || register === undefined) return leave(entry, `"${key}": no register of work offsets`);
    if (entry.children.length === 0)
      return leave(entry, `${register.name}${entry.text === "" ? "" : ` ${entry.text}`}: an entry without cells`);
    const values = new Map<Axis, TypedLength>();
    for (const cell of entry.children) {
      const letter = cell.attributes.get("key") ?? "";
      const axis = axes.find((each) => each === letter.toUpperCase());
      const digits = digitsOf(cell.text);
      if (axis === undefined || digits === undefined || values.has(axis))
        leave(cell, `${letter} ${cell.text} of ${register.name}: no coordinate of a setup`);
      else values.set(axis, { digits, unit: "mm" });
    }
    if (values.size > 0) this.registers.push({ at: `line ${entry.line}`, register: register.name, values });
    return undefined;
  }

  private leave({ line }: XmlNode, what: string): undefined {
    this.leftOut.push({ at: `line ${line}`, what });
    return undefined;
  }
}

interface AxisSample {
  readonly node: XmlNode;
  readonly device: string;
  readonly subType: string;
  readonly time: string;
  readonly axis: Axis;
  readonly digits: string;
}

function positionOf(samples: readonly AxisSample[]): ReadPosition & { readonly subType: string } {
  const [first] = samples as [AxisSample];
  const values = new Map(samples.map(({ axis, digits }) => [axis, { digits, unit: "mm" }] as const));
  return { at: `line ${first.node.line}`, label: "", values, subType: first.subType };
}

function lineOf({ at }: ReadPosition): number {
  return Number(at.replace(/\D/g, ""));
}

/** `G54`, `P7`; of bare numbers 54 to 59.3 are words of RS274/NGC without their letter, and others those behind a P. */
function registerOfKey(key: string): OffsetRegister | undefined {
  return readRegister(key) ?? readRegister(`G${key}`) ?? readRegister(`P${key}`);
}

function groupedBy<T>(all: readonly T[], keyOf: (one: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const one of all) {
    const group = groups.get(keyOf(one)) ?? [];
    group.push(one);
    groups.set(keyOf(one), group);
  }
  return groups;
}
