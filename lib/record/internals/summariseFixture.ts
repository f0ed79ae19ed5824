import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import { fixtureSentences } from "../fixtureSentences.ts";
import type { Figures } from "./figures.ts";
import { judged } from "./summariseStrategy.ts";
import { bullet, wrapText } from "./wrapText.ts";

/** What the fixture does to a part of the batch, and what locating alone does to every characteristic. */
export function summariseFixture({ fixture, setup }: SetupEvaluation, figures: Figures): string[] {
  if (fixture === undefined) return [];
  const { located } = fixture;
  return [
    ...fixtureSentences(fixture, { unit: figures.unit === "in" ? "inch" : "mm" }).flatMap((sentence) => wrapText(sentence, bullet)),
    ...(located.ok ? judged("by locating alone", located.value.judgement, setup.part.characteristics, figures) : []),
  ];
}
