import { failure, type Outcome, success } from "../base/outcome.ts";
import type { SetupDocument } from "../document/setupDocument.ts";
import type { LengthUnit } from "./lengthText.ts";
import { onLayers } from "./onLayers.ts";
import { type Proposal, withDoubt } from "./proposal.ts";
import { proposeCertificates } from "./proposeCertificates.ts";
import { proposeCharacteristics } from "./proposeCharacteristics.ts";
import { proposeElements } from "./proposeElements.ts";
import { proposeOffsets } from "./proposeOffsets.ts";
import { proposePositions } from "./proposePositions.ts";
import { isCharacteristicTable, readCharacteristicTable } from "./readCharacteristicTable.ts";
import { readDsi } from "./readDsi.ts";
import { type ReadDrawing, readDxf } from "./readDxf.ts";
import { readMtconnect } from "./readMtconnect.ts";
import { readQif } from "./readQif.ts";
import { readScreenLines } from "./readScreenLines.ts";
import { readXml, type XmlNode } from "./readXml.ts";

/** What can be brought in, in the order in which it is offered. */
export const exchangeKinds = {
  lines: "positions as a display shows them, a line each",
  mtconnect: "an MTConnect streams document: positions, work offsets",
  cells: "characteristics or measured values as cells under a row of names",
  qif: "a QIF document: characteristics and measured values",
  dxf: "a DXF drawing: circles and outermost lines of the part, by layers",
  dsi: "a certificate with D-SI quantities: radii, lengths, thicknesses",
} as const;

/** What another program has written. */
export type ExchangeKind = keyof typeof exchangeKinds;

/** What a person has chosen of a text. */
export interface BringInOptions {
  /** The layers of a drawing that are of the part, by name; those that it shows unless given, and then what is on several asks. */
  readonly layers?: readonly string[] | undefined;
}

/**
 * How a text from outside is understood for a setup. Nothing is changed, nothing is fetched, and whatever is not understood or has no place is listed.
 *
 * @param kind found out from the text unless given
 */
export function bringIn(
  text: string,
  document: SetupDocument,
  kind: ExchangeKind = kindOf(text),
  options: BringInOptions = {},
): Outcome<Proposal> {
  if (options.layers !== undefined && kind !== "dxf")
    return failure({ at: "layers", what: "only a drawing has layers", expected: "a DXF drawing", got: exchangeKinds[kind] });
  const proposal = propose(text, document, kind, options);
  const count = proposal.ok ? proposal.value.lines.length : 0;
  return count <= mostLines
    ? proposal
    : failure({
        at: "",
        what: `${count} things would be brought in`,
        expected: `at most ${mostLines} at a time`,
        remedy: "bring in a part of it",
      });
}

/** More than any setup has of anything. */
const mostLines = 2000;

function propose(text: string, document: SetupDocument, kind: ExchangeKind, { layers }: BringInOptions): Outcome<Proposal> {
  switch (kind) {
    case "lines": {
      const read = readScreenLines(text, document.unit);
      if (!read.ok) return read;
      const { lines, leftOut } = proposePositions(read.value.positions, document);
      return success({ is: exchangeKinds.lines, lines, leftOut: [...read.value.leftOut, ...leftOut], notes: [bareNumbers(document.unit)] });
    }
    case "cells": {
      const read = readCharacteristicTable(text, document.unit);
      return read.ok ? success(ofCharacteristics(read.value, document, kind)) : read;
    }
    case "dxf": {
      const read = readDxf(text);
      return read.ok ? ofDrawing(read.value, document, layers) : read;
    }
    default: {
      const root = readXml(text);
      return root.ok ? ofXml(root.value, document, kind) : root;
    }
  }
}

function ofDrawing(read: ReadDrawing, document: SetupDocument, chosen: readonly string[] | undefined): Outcome<Proposal> {
  const unknown = chosen?.find((name) => read.layers.every((layer) => layer.name !== name));
  if (unknown !== undefined)
    return failure({
      at: "layers",
      what: "nothing that could be brought in is on this layer",
      expected: read.layers
        .map(({ name }) => name)
        .join(", ")
        .slice(0, 400),
      got: unknown,
    });
  const drawing = onLayers(read, chosen);
  const unit = read.unit ?? document.unit;
  const { lines, leftOut } = proposeElements(drawing, unit, document, chosen !== undefined);
  const doubt = read.unit === undefined ? `the file does not say its unit, and ${unitWords[unit]} are only assumed` : undefined;
  return success({
    is: exchangeKinds.dxf,
    lines: lines.map((line) => withDoubt(line, doubt)),
    leftOut: [...drawing.leftOut, ...leftOut],
    notes: [
      ...(read.unit === undefined ? [`The file does not say its unit: ${unitWords[unit]} are taken.`] : []),
      "Coordinates are those of the drawing file; whether its origin is the corner of your datums, and which circle is a bore, is for you to see.",
    ],
    layers: drawing.layers,
  });
}

function ofXml(root: XmlNode, document: SetupDocument, kind: "mtconnect" | "qif" | "dsi"): Outcome<Proposal> {
  switch (kind) {
    case "mtconnect": {
      const read = readMtconnect(root);
      if (!read.ok) return read;
      const { positions, registers, when, leftOut, leftOutOfRegisters } = read.value;
      const touches = proposePositions(positions, document);
      return success({
        is: exchangeKinds.mtconnect,
        lines: [...touches.lines, ...proposeOffsets(registers, when, document)],
        leftOut: [...leftOutOfRegisters, ...leftOut, ...touches.leftOut],
        notes: [
          "Values are in millimetres, as the standard has them.",
          "A stream does not say whether positions are of the machine or of a work frame: the touches must name the frame.",
        ],
      });
    }
    case "qif": {
      const read = readQif(root);
      return read.ok ? success(ofCharacteristics(read.value, document, kind)) : read;
    }
    case "dsi": {
      const read = readDsi(root);
      if (!read.ok) return read;
      const { lengths, leftOut } = read.value;
      return success({
        is: exchangeKinds.dsi,
        lines: proposeCertificates(lengths, document),
        leftOut,
        notes: ["Standard uncertainties are the expanded ones divided by their coverage factors (JCGM 100:2008, 4.3.3)."],
      });
    }
  }
}

function ofCharacteristics(read: Parameters<typeof proposeCharacteristics>[0], document: SetupDocument, kind: "cells" | "qif"): Proposal {
  const { lines, leftOut } = proposeCharacteristics(read, document);
  return {
    is: exchangeKinds[kind],
    lines,
    leftOut: [...read.leftOut, ...leftOut],
    notes: [`Lengths that state no unit are ${unitWords[read.unit]}.`],
  };
}

const unitWords: Readonly<Record<LengthUnit, string>> = { mm: "millimetres", inch: "inches" };

function bareNumbers(unit: LengthUnit): string {
  return `Numbers without a unit are ${unitWords[unit]}, as everywhere in this setup.`;
}

/** What a text looks like. */
function kindOf(text: string): ExchangeKind {
  const start = text
    .slice(0, 100_000)
    .replace(/^\ufeff/, "")
    .trimStart();
  if (start.startsWith("<")) {
    const root = /<(?:[\w.-]+:)?([A-Za-z][\w.-]*)/.exec(start)?.[1] ?? "";
    return root === "MTConnectStreams" ? "mtconnect" : root === "QIFDocument" ? "qif" : "dsi";
  }
  if (beginsSection(start)) return "dxf";
  return isCharacteristicTable(start) ? "cells" : "lines";
}

/** Comments (group code 999) may stand before the first section. */
function beginsSection(text: string): boolean {
  const lines = text.split(/\r\n|\r|\n/, 200).map((line) => line.trim());
  let at = 0;
  while (lines[at] === "999") at += 2;
  return lines[at] === "0" && lines[at + 1] === "SECTION";
}

/** The kind by this name, for what a person types. */
export function exchangeKindNamed(name: string): Outcome<ExchangeKind> {
  if (Object.hasOwn(exchangeKinds, name)) return success(name as ExchangeKind);
  return failure({ at: "kind", what: "there is no such kind", expected: Object.keys(exchangeKinds).join(", "), got: name });
}
