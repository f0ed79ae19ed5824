// What leaves the notebook: plain data, a readable sheet, judgement in sentences, cautions; the record and the rationale, and a record that comes back.

export { cautions } from "./cautions.ts";
export { judgementSentences } from "./judgementSentences.ts";
export type { Paper } from "./paper/paper.ts";
export { paperCsv } from "./paper/paperCsv.ts";
export { paperText } from "./paper/paperText.ts";
export { plainResults } from "./plainResults.ts";
export { rationalePaper } from "./rationalePaper.ts";
export { recordChecks } from "./recordChecks.ts";
export { recordPaper } from "./recordPaper.ts";
export { type Replay, replaySetup } from "./replaySetup.ts";
export { summaryText } from "./summaryText.ts";
