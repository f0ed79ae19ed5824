import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Axis, axes } from "../base/vector.ts";
import { readRegister } from "../offsets/offsetRegister.ts";
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
 * A position is made of samples with the very same time and subtype; everything else in the document is told by its kind and left out.
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
  private readonly gathered = new Map<string, { at: string; values: Map<Axis, TypedLength> }>();
  private readonly registers: ReadRegister[] = [];
  private readonly leftOut: LeftOut[] = [];
  private readonly leftOutOfRegisters: LeftOut[] = [];
  private readonly others = new Map<string, { line: number; count: number }>();

  read(observation: XmlNode, component: XmlNode, device: string): void {
    const { name, line } = observation;
    if (offsetTable.test(name)) for (const entry of observation.children) this.readEntry(entry);
    else if (name === "Position" || name === "PathPosition") this.readPosition(observation, component, device);
    else this.others.set(name, { line: this.others.get(name)?.line ?? line, count: (this.others.get(name)?.count ?? 0) + 1 });
  }

  found(): Omit<ReadStreams, "when"> {
    const positions = [...this.gathered.values()].map(({ at, values }): ReadPosition => ({ at, label: "", values }));
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
    const key = [device, attributes.get("timestamp") ?? "", subType];
    const digits = text.split(/\s+/).map(digitsOf);
    if (digits.length !== (name === "Position" ? 1 : 3) || digits.includes(undefined))
      return leave(name === "Position" ? "no number" : "not three numbers");
    if (name === "PathPosition") {
      const path = [...key, component.attributes.get("componentId") ?? ""].join(" ");
      for (const [i, axis] of axes.entries()) this.gather(path, observation, axis, digits[i] as string);
      return undefined;
    }
    const called = component.attributes.get("name") ?? "";
    const axis = axes.find((each) => each === called.toUpperCase());
    if (axis === undefined) return leave(`of component "${called}", which is not X, Y or Z`);
    return this.gather(key.join(" "), observation, axis, digits[0] as string);
  }

  private gather(key: string, node: XmlNode, axis: Axis, digits: string): undefined {
    const group = this.gathered.get(key) ?? { at: `line ${node.line}`, values: new Map<Axis, TypedLength>() };
    if (group.values.has(axis)) this.leave(node, `${axis} ${digits}: a second ${axis} at the same time`);
    else group.values.set(axis, { digits, unit: "mm" });
    this.gathered.set(key, group);
    return undefined;
  }

  /** `<Entry key="G54"><Cell key="X">-412.607</Cell> ...`. */
  private readEntry(entry: XmlNode): undefined {
    const leave = ({ line }: XmlNode, what: string): undefined => {
      this.leftOutOfRegisters.push({ at: `line ${line}`, what });
      return undefined;
    };
    const key = entry.attributes.get("key") ?? "";
    const register = readRegister(key) ?? readRegister(`P${key}`);
    if (entry.name !== "Entry" || register === undefined) return leave(entry, `"${key}": no register of work offsets`);
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
