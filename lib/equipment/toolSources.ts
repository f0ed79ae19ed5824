import type { Evidence } from "../uncertainty/source.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { Spacer, Tool } from "./equipment.ts";

const stated: Evidence = { kind: "stated" };

/** Effective radius of a tool, mm: one source however many touches use it. */
export function radiusOf(tool: Tool, radius: number, book: SourceBook): Uncertain {
  return book.value({
    id: `tool ${tool.id}, radius`,
    label: `radius of ${tool.id}`,
    family: "contact tool",
    estimate: radius,
    distribution: { shape: "normal", standardDeviation: tool.radiusUncertainty },
    evidence: tool.radiusEvidence,
  });
}

/** From the gauge line to the tip, mm. */
export function lengthOf(tool: Tool, length: number, book: SourceBook): Uncertain {
  return book.value({
    id: `tool ${tool.id}, length`,
    label: `length of ${tool.id}`,
    family: "contact tool",
    estimate: length,
    distribution: { shape: "normal", standardDeviation: tool.lengthUncertainty },
    evidence: stated,
  });
}

export function thicknessOf(spacer: Spacer, book: SourceBook): Uncertain {
  return book.value({
    id: `spacer ${spacer.id}, thickness`,
    label: `thickness of ${spacer.id}`,
    family: "contact tool",
    estimate: spacer.thickness,
    distribution: { shape: "normal", standardDeviation: spacer.standardUncertainty },
    evidence: spacer.evidence,
  });
}
