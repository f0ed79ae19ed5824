// What leaves the notebook: plain data, a readable sheet, judgement in sentences, cautions.

export { cautions } from "./cautions.ts";
export { judgementSentences } from "./judgementSentences.ts";
export { plainResults } from "./plainResults.ts";
export { summaryText } from "./summaryText.ts";
