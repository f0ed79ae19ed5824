// Open formats: results out, and what other programs have written in, as a proposal that nothing is changed by.

export { type BringInOptions, bringIn, type ExchangeKind, exchangeKinds } from "./bringIn.ts";
export { type Proposal, type ProposedLayer, type ProposedLine, takeLines } from "./proposal.ts";
export { type ExchangeFormat, exchangeFormats, type TakeOutOptions, takeOut } from "./takeOut.ts";
