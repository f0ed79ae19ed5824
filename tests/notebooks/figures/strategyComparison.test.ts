import { describe, expect, it } from "vitest";
import type { SetupEvaluation } from "../../../lib/decision/setupEvaluation.ts";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../../lib/evaluateSetup.ts";
import { comparisonTable } from "../../../notebooks/figures/comparisonTable.ts";
import { miniDocument } from "../../../notebooks/figures/miniDocument.ts";
import { comparisonPieces, strategyComparison } from "../../../notebooks/figures/strategyComparison.ts";
import { cover, openPlate, pocketBlock } from "../../gallery/documents.ts";
import { drawn, faultsOf } from "./drawnFigure.ts";

const figure = (evaluation: SetupEvaluation, width = 520) =>
  drawn((environment) => strategyComparison(evaluation, { view: "thisPart", unit: "mm", width }, environment));

describe("strategyComparison(evaluation, options)", () => {
  it("puts strategies in the order of the ranking, and marks the chosen one", () => {
    const evaluation = evaluateSetup(cover);
    const { root } = figure(evaluation);
    const heads = Array.from(root.querySelectorAll("g > title"), ({ textContent }) => textContent ?? "").filter((title) =>
      /^\d+\. /.test(title),
    );
    expect(heads).toEqual(evaluation.ranking.order.map((id, i) => `${i + 1}. ${id}${id === cover.chosen ? ", chosen" : ""}`));
  });

  it("strikes out what cannot be computed, and says why in the title and below", () => {
    const { root, words } = figure(evaluateSetup(pocketBlock));
    // Two strategies, four characteristics and the chance of all; the distance between two existing faces is not asked for here.
    expect(root.querySelectorAll(".fig-strike").length).toBeGreaterThanOrEqual(8);
    const titles = Array.from(root.querySelectorAll("title"), ({ textContent }) => textContent ?? "");
    expect(titles).toContain("hole 1, no touch that exists: cannot be computed: there is no such touch (nowhere)");
    expect(words.join(" ")).toContain("no touch that exists: there is no such touch (nowhere).");
  });

  it("says so when there is no strategy or no characteristic", () => {
    expect(figure(evaluateSetup({ ...cover, strategies: [], chosen: "" })).words).toEqual(["There is no strategy yet."]);
    expect(figure(evaluateSetup({ ...cover, part: { ...cover.part, characteristics: [] } })).words).toEqual([
      "The drawing demands nothing yet: add a characteristic.",
    ]);
  });

  it("is whole when nothing can be computed", () => {
    const lost = figure(evaluateSetup({ ...cover, touches: [] }));
    expect(lost.root.querySelectorAll(".fig-share")).toHaveLength(0);
    expect(faultsOf(lost)).toEqual([]);
  });

  it("is whole with 60 characteristics and 5 strategies, and wider than asked", () => {
    const base = openPlate.part.characteristics[0] as SetupDocument["part"]["characteristics"][number];
    const strategy = openPlate.strategies[0] as SetupDocument["strategies"][number];
    const document: SetupDocument = {
      ...openPlate,
      part: {
        ...openPlate.part,
        characteristics: Array.from({ length: 60 }, (_, i) => ({ ...base, id: `hole ${i}`, of: i % 2 === 0 ? "H1" : "H2" })),
      },
      strategies: Array.from({ length: 5 }, (_, i) => ({ ...strategy, id: `corner number ${i}` })),
      sampling: { trials: 16, seed: 1 },
      chosen: "",
    };
    const large = figure(evaluateSetup(document), 340);
    expect(large.root.querySelectorAll(".fig-track")).toHaveLength(300);
    expect(Number(large.root.getAttribute("width"))).toBeGreaterThan(450);
    expect(faultsOf(large)).toEqual([]);
  });
});

it("tells the number of touches of each strategy, and keeps heads and names in groups of their own", () => {
  const { root, words } = figure(evaluateSetup(cover));
  expect(words.filter((text) => /^\d+ touches$/.test(text)).sort()).toEqual(["4 touches", "5 touches", "5 touches", "7 touches"]);
  expect(root.querySelector(".fig-stays-left")?.textContent).toContain("slot depth");
  expect(root.querySelector(".fig-stays-top")?.textContent).toContain("middle of");
  expect(root.querySelector(".fig-stays")?.textContent).toContain("chance of all");
});

it("comparisonPieces(evaluation, options, paper) holds every cell once, on no piece larger than the paper", () => {
  const evaluation = evaluateSetup(cover);
  const paper = { width: 330, height: 330 };
  const pieces = comparisonPieces(evaluation, { view: "batch", unit: "mm" }, paper, { document: miniDocument() });
  const whole = strategyComparison(evaluation, { view: "batch", unit: "mm" }, { document: miniDocument() });
  const cells = (text: string) => text.match(/<title>[^<]*: uses [^<]*<\/title>/g) ?? [];
  expect(cells(whole.outerHTML)).toHaveLength(32);
  expect(pieces.flatMap(({ outerHTML }) => cells(outerHTML)).sort()).toEqual([...cells(whole.outerHTML)].sort());
  expect(pieces.filter((piece) => Number(piece.getAttribute("width")) > paper.width)).toEqual([]);
  const ids = pieces.flatMap(({ outerHTML }) => outerHTML.match(/ id="[^"]*"/g) ?? []);
  expect(new Set(ids).size).toBe(ids.length);
});

it("comparisonTable(evaluation, options) gives deviation, doubt, shares and chance, or the reason, and the chance of all last", () => {
  const evaluation = evaluateSetup(pocketBlock);
  const { columns, rows } = comparisonTable(evaluation, { view: "thisPart", unit: "mm" });
  expect(columns[0]).toBe("characteristic");
  expect(rows.at(-1)?.[0]).toBe("chance of all");
  expect(rows[0]?.[columns.indexOf("no touch that exists")]).toBe("not known: there is no such touch (nowhere)");
  expect(rows[0]?.[columns.indexOf("corner, turned")]).toMatch(
    /^[-−]?[\d.]+ mm \(u [^)]* mm\); [\d<.]+ ?[\d.]* %; \d+ %; \d+ %; met > 99\.99 %$/,
  );
  // The tightest by its share of the tolerance, as the figure marks it.
  const turned = columns.indexOf("corner, turned");
  const strategy = evaluation.strategies.find(({ id }) => id === "corner, turned")?.evaluation;
  expect(rows.find(([name]) => name === "bottleneck")?.[turned]).toBe(strategy?.ok ? strategy.value.thisPart.bottleneck : "");
  expect(rows.find(([name]) => name === "touches")?.[turned]).toMatch(/^\d+$/);
});
