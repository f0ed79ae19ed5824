import type { Evidence, Source } from "../uncertainty/source.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { Spacer, Tool } from "./equipment.ts";

type SourceName = Pick<Source, "id" | "label" | "family" | "evidence">;

const stated: Evidence = { kind: "stated" };

export function sourceOfRadius({ id, radiusEvidence }: Pick<Tool, "id" | "radiusEvidence">): SourceName {
  return { id: `tool ${id}, radius`, label: `radius of ${id}`, family: "contact tool", evidence: radiusEvidence };
}

export function sourceOfLength({ id }: Pick<Tool, "id">): SourceName {
  return { id: `tool ${id}, length`, label: `length of ${id}`, family: "contact tool", evidence: stated };
}

export function sourceOfThickness({ id, evidence }: Pick<Spacer, "id" | "evidence">): SourceName {
  return { id: `spacer ${id}, thickness`, label: `thickness of ${id}`, family: "contact tool", evidence };
}

export function sourceOfLeverAngle({ id }: Pick<Tool, "id">): SourceName {
  return { id: `tool ${id}, lever angle`, label: `lever angle of ${id}`, family: "contact tool", evidence: stated };
}

/** Effective radius of a tool, mm: one source however many touches use it. */
export function radiusOf(tool: Tool, radius: number, book: SourceBook): Uncertain {
  return book.value({
    ...sourceOfRadius(tool),
    estimate: radius,
    distribution: { shape: "normal", standardDeviation: tool.radiusUncertainty },
  });
}

/** From the gauge line to the tip, mm. */
export function lengthOf(tool: Tool, length: number, book: SourceBook): Uncertain {
  return book.value({
    ...sourceOfLength(tool),
    estimate: length,
    distribution: { shape: "normal", standardDeviation: tool.lengthUncertainty },
  });
}

export function thicknessOf(spacer: Spacer, book: SourceBook): Uncertain {
  return book.value({
    ...sourceOfThickness(spacer),
    estimate: spacer.thickness,
    distribution: { shape: "normal", standardDeviation: spacer.standardUncertainty },
  });
}
