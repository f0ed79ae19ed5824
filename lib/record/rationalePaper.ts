import { chanceText } from "./internals/chanceText.ts";
import { type Block, list, type Paper, paragraph, sectionsOf, tableOf } from "./paper/paper.ts";
import type { SetupRationale } from "./setupRationale.ts";

/** A rationale as it is printed: the choice first, what it rests on, what could overturn it. */
export function rationalePaper(rationale: SetupRationale): Paper {
  const { author } = rationale;
  return {
    kind: "Rationale",
    title: rationale.title === "" ? "without a title" : rationale.title,
    facts: factsOf(rationale),
    sections: sectionsOf([
      { title: "Not read, or not known", blocks: list(rationale.problems) },
      { title: "The alternatives", blocks: alternativeBlocks(rationale) },
      {
        title: rationale.strategy === null ? "No strategy is in use" : `Why "${rationale.strategy}"`,
        blocks: [...own(author.choice), ...list(rationale.reasons), ...figure("stack")],
      },
      { title: "What it rests on", blocks: [...list(rationale.evidence), ...sourceBlocks(rationale), ...calibrationBlocks(rationale)] },
      { title: "What is assumed", blocks: [...own(author.assumptions), ...list(rationale.assumptions)] },
      { title: "What would change the choice", blocks: [...own(author.changes), ...changeBlocks(rationale)] },
      { title: "Whether first order is enough", blocks: list(rationale.firstOrder) },
      { title: "How it is decided", blocks: list(rationale.decision) },
      { title: "Open risks", blocks: [...own(author.risks), ...list(rationale.risks)] },
    ]),
  };
}

function factsOf(rationale: SetupRationale) {
  return [
    { name: "Part", value: rationale.part || "not named" },
    { name: "Revision", value: rationale.revision || "none" },
    ...(rationale.operation === null ? [] : [{ name: "Operation", value: rationale.operation }]),
    { name: "Machine", value: rationale.machine || "not named" },
    { name: "Lengths in", value: rationale.unit === "inch" ? "in" : "mm" },
    { name: "Checksum of inputs", value: rationale.checksum.short },
    { name: "Prepared by", value: rationale.preparedBy },
    { name: "Checked by", value: rationale.checkedBy },
    { name: "Date", value: rationale.date },
    { name: "Risk accepted by", value: "" },
  ];
}

/** Opinion is told as such, and as it was written. */
function own(text: string): Block[] {
  return text.trim() === "" ? [] : [{ kind: "quote", of: "The author:", text: text.trim() }];
}

function figure(name: string): Block[] {
  return [{ kind: "figure", name }];
}

function alternativeBlocks({ alternatives }: SetupRationale): Block[] {
  return [
    ...tableOf(
      ["strategy", "this part:", "batch:", "u(X):", "u(Y):", "u(Z):", "bottleneck", "worst:"],
      alternatives.flatMap(({ place, id, inUse, written }) =>
        written === null
          ? []
          : [
              [
                `${place}. ${id}${inUse ? " (in use)" : ""}`,
                written.thisPart,
                written.batch,
                ...written.uncertainties.map(({ text }) => text),
                written.bottleneck,
                written.used,
              ],
            ],
      ),
    ),
    ...list(
      alternatives.flatMap(({ id, is, problems }) =>
        problems.length > 0 ? problems.map((problem) => `"${id}" could not be solved: ${problem}`) : is === "" ? [] : [`"${id}": ${is}.`],
      ),
    ),
    ...paragraph(
      alternatives.length === 0
        ? ""
        : "The chances are those that all characteristics are met; u is the standard uncertainty of zero; the worst case is the share of the bottleneck's tolerance.",
    ),
  ];
}

function sourceBlocks({ sources, varianceByEvidence }: SetupRationale): Block[] {
  const bottleneck = varianceByEvidence?.characteristic;
  const acts = ({ written }: (typeof sources)[number]) => written.share !== "" || written.zero.some((text) => text !== "");
  const [acting, others] = [sources.filter(acts), sources.filter((source) => !acts(source))];
  const classes = [...new Set(others.map(({ written }) => written.evidence))];
  return [
    ...tableOf(
      ["source", "family", "evidence", "X:", "Y:", "Z:", "share:"],
      acting.map(({ label, family, written }) => [label, family, written.evidence, ...written.zero, written.share]),
    ),
    ...paragraph(
      acting.length === 0
        ? ""
        : `X, Y and Z: what one standard uncertainty of the source does to zero by the strategy in use, left out below a thousandth of its doubt${bottleneck === undefined ? "" : `; share: of the variance of "${bottleneck}", its bottleneck`}.`,
    ),
    ...paragraph(others.length === 0 ? "" : "Sources that matter to other results, or to other strategies, alone:"),
    ...list(
      classes.map(
        (evidence) => `${evidence}: ${others.flatMap(({ label, written }) => (written.evidence === evidence ? [label] : [])).join("; ")}.`,
      ),
    ),
  ];
}

function calibrationBlocks({ calibrations }: SetupRationale): Block[] {
  return list(calibrations.map(({ of, id, written }) => `The ${of} "${id}": ${written}.`));
}

/** So many doubts with the least room are told; the others have more. */
const mostRoom = 8;

function changeBlocks({ changes }: SetupRationale): Block[] {
  if (changes === null) return [];
  return [
    ...list([...changes.rivals, ...changes.moves, ...changes.others]),
    ...paragraph(
      changes.room.length === 0
        ? ""
        : `How large each doubt may be, one at a time, so that all that follows it keeps a chance of ${chanceText(changes.wanted)}:`,
    ),
    ...tableOf(
      ["source", "may be:", "bound by"],
      changes.room.slice(0, mostRoom).map(({ label, written }) => [label, written.mayBe, written.boundBy]),
    ),
    ...paragraph(changes.room.length > mostRoom ? `${changes.room.length - mostRoom} more have more room than these.` : ""),
  ];
}
