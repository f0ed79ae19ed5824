import { listText } from "../../base/listText.ts";
import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import type { JudgementSentence } from "../judgementSentences.ts";

/** How touches that are still to be taken are placed on a part of which nothing tells where it lies. */
export function plannedSentences({ location: { guessedAlong } }: Pick<SetupEvaluation, "location">): JudgementSentence[] {
  if (guessedAlong.length === 0) return [];
  return [
    {
      kind: "planned places",
      at: "touches",
      text: `No touch tells yet where the part lies along ${listText(guessedAlong)}, so the places of the planned touches are taken to lie about the middle of the part there. What a turn does rests on that; touch the part there first, or type where on the drawing it is to be touched.`,
    },
  ];
}
