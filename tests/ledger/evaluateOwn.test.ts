import { describe, expect, it } from "vitest";
import type { CellBlock } from "../../lib/document/ledgerBlocks.ts";
import { newDocument } from "../../lib/document/newDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { recordOf } from "../../lib/recordOf.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { demoDocument } from "../../notebooks/pages/firstJob.ts";
import { cell, table } from "./blocks.ts";

function valueIn(document: SetupDocument, name: string) {
  const found = evaluateSetup(document).own.get(name);
  if (!found?.ok) throw new Error(`${name}: ${JSON.stringify(found)}`);
  if (found.value.kind !== "quantity") throw new Error(`${name} is a column`);
  const { value, standardUncertainty, contributions } = budgetOf(found.value.value);
  return { value, standardUncertainty, sources: contributions.map(({ source }) => source.id) };
}

describe("cells of a person's own", () => {
  it("share their sources with the zero that they name", () => {
    const document = { ...demoDocument(), ledger: [cell("gap", "zero_X - bore_turned_to_front_zero_X"), cell("double", "2 * zero_X")] };
    const zero = evaluateSetup(document).strategies.find(({ id }) => id === document.chosen);
    const u = zero?.evaluation.ok && zero.evaluation.value.zero[0].ok ? zero.evaluation.value.zero[0].value.standardUncertainty : 0;
    expect(valueIn(document, "gap")).toEqual({ value: 0, standardUncertainty: 0, sources: [] });
    expect(valueIn(document, "double").standardUncertainty).toBeCloseTo(2 * u, 14);
  });

  it("are told of a quantity of the setup that has come to be called the same", () => {
    const demo = demoDocument();
    const ledger = [cell("probe_radius", "7 mm"), cell("twice", "2 * probe_radius"), table("left", ["face"], [["1 mm"]])];
    const { problems, own } = evaluateSetup({ ...demo, ledger });
    expect(problems.map(({ at, what }) => `${at}: ${what}`)).toEqual([
      'ledger.probe_radius.id: "probe_radius" is also the effective radius of probe; formulas take what stands here',
      'ledger.left.face.id: "left_face" is also the X of left in the machine, by the touch left; formulas take what stands here',
    ]);
    expect(own.get("twice")).toMatchObject({ ok: true, value: { value: { value: 14 } } });
  });

  it("are sources where a doubt is stated, and cancel by themselves", () => {
    const document = {
      ...newDocument(),
      ledger: [cell("difference", "a - b"), cell("a", "c + 1 mm"), cell("b", "c ± 0.003 mm"), cell("c", "12.500 mm ± 0.004 mm")],
    };
    // Common to both and gone: 0.004; left: 0.003 alone.
    expect(valueIn(document, "difference")).toEqual({ value: 1, standardUncertainty: expect.closeTo(0.003, 15), sources: ["cell b"] });
  });

  // A stylus of which it is only known that it cannot be below 2.99 mm, and what is expected of it; its doubt comes with the entry that names it.
  it("state an expectation and a limit, which entries of the setup bring along", () => {
    const demo = demoDocument();
    const document = {
      ...demo,
      ledger: [cell("worn", "2.9985 mm not below 2.998 mm exponential"), cell("drop", "worn - least"), cell("least", "2.998 mm")],
      tools: demo.tools.map((tool, i) => (i === 0 ? { ...tool, radius: "worn", radiusUncertainty: "" } : tool)),
    };
    expect(evaluateSetup(document).problems).toEqual([]);
    expect(valueIn(document, "drop")).toEqual({
      value: expect.closeTo(0.0005, 12),
      standardUncertainty: expect.closeTo(0.0005, 12),
      sources: ["cell worn"],
    });
    const own = evaluateSetup(document)
      .faces.find(({ id }) => id === "left")
      ?.budget.contributions.find(({ source }) => source.id === "cell worn");
    expect(own?.source.distribution).toEqual({ shape: "exponential", mean: expect.closeTo(0.0005, 12) });
    expect(own?.amount).toBeCloseTo(0.0005, 12);
    // The results as data keep the distribution, and pass their own schema.
    expect(JSON.stringify(plainResults(evaluateSetup(document)))).toContain('"exponential"');
  });

  it("size a doubt by names of what is sure, in cells and in entries of the setup, and say where a name is in doubt or runs in a circle", () => {
    const demo = demoDocument();
    const document = {
      ...demo,
      ledger: [
        cell("class", "0.004 mm"),
        cell("gauge", "12.5 mm ± class / 2"),
        cell("worse", "12.5 mm ± gauge / 1000"),
        cell("ring", "ring_u + 3 mm"),
        cell("ring_u", "1 mm ± estimate(ring)"),
      ],
      tools: demo.tools.map((tool, i) => (i === 0 ? { ...tool, radiusUncertainty: "class / 5" } : tool)),
    };
    expect(valueIn(document, "gauge")).toEqual({ value: 12.5, standardUncertainty: expect.closeTo(0.002, 15), sources: ["cell gauge"] });
    const { problems, faces } = evaluateSetup(document);
    const told = problems.map(({ at, what }) => `${at}: ${what}`);
    expect(told).toContain('ledger.worse.entry: a doubt cannot itself be in doubt, and "gauge" is');
    expect(told).toContainEqual(expect.stringMatching(/^ledger\.(ring|ring_u): this needs itself: /));
    const radius = faces.find(({ id }) => id === "left")?.budget.contributions.find(({ source }) => source.id.includes("radius"));
    expect(radius?.amount).toBeCloseTo(0.0008, 15);
  });

  it("can be used by entries of the setup, doubt and all", () => {
    const demo = demoDocument();
    const [probe] = demo.tools;
    const document = {
      ...demo,
      ledger: [cell("ring_radius", "2.9985 mm ± 0.0004 mm")],
      tools: demo.tools.map((tool) => (tool === probe ? { ...tool, radius: "ring_radius", radiusUncertainty: "" } : tool)),
    };
    const evaluation = evaluateSetup(document);
    expect(evaluation.problems).toEqual([]);
    const face = evaluation.faces.find(({ id }) => id === "left");
    const own = face?.budget.contributions.find(({ source }) => source.id === "cell ring_radius");
    expect(own?.amount).toBeCloseTo(0.0004, 15);
  });

  it("that rest on results cannot be used by what the results rest on", () => {
    const demo = demoDocument();
    const document = {
      ...demo,
      ledger: [cell("loop", "left_face + 400 mm")],
      tools: demo.tools.map((tool, i) => (i === 0 ? { ...tool, radius: "loop", radiusUncertainty: "" } : tool)),
    };
    expect(evaluateSetup(document).problems.map(({ at, what }) => `${at}: ${what}`)).toContain(
      `tools.${demo.tools[0]?.id}.radius: "loop" rests on results of this setup, which rest on its entries`,
    );
  });

  it("tell the way round a circle", () => {
    const document = { ...newDocument(), ledger: [cell("a", "b + 1"), cell("b", "c + 1"), cell("c", "a + 1"), cell("d", "a + 1")] };
    const { own } = evaluateSetup(document);
    expect(own.get("a")).toMatchObject({ ok: false, problems: [{ at: "ledger.a", what: "this needs itself: a needs b needs c needs a" }] });
    expect(own.get("d")).toMatchObject({ ok: false, problems: [{ what: '"a" has no value, so this has none' }] });
  });

  it("withhold what would be typed into a machine while something is only supposed", () => {
    const document = { ...demoDocument(), whatIf: [{ source: "tool probe, radius", shift: "1", doubt: "" }] };
    const [first] = evaluateSetup(document).strategies;
    expect(first?.evaluation.ok && first.evaluation.value.offset).toMatchObject({ ok: false, problems: [{ at: "whatIf" }] });
  });

  // A person who sees a line to type must not have to know whether a cell that holds another entry for the moment is behind it.
  it.each([
    ["by nothing", {}],
    ["by another cell alone", { ledger: [cell("double", "play * 2")] }],
    ["by a tolerance alone", { tolerance: "±play" }],
  ])(
    "withhold it while a cell holds another entry for the moment that is named %s, and tell the cell",
    (_where, { ledger = [], tolerance }: { ledger?: CellBlock[]; tolerance?: string }) => {
      const demo = demoDocument();
      const [first, ...others] = demo.part.dimensions;
      const document: SetupDocument = {
        ...demo,
        ledger: [...demo.ledger, cell("play", "0.05 mm", { instead: "0.02 mm" }), ...ledger],
        part: { ...demo.part, dimensions: [{ ...(first as NonNullable<typeof first>), ...(tolerance && { tolerance }) }, ...others] },
      };
      const evaluation = evaluateSetup(document);
      expect(evaluation.problems).toEqual([]);
      expect(evaluation.setup.supposed).toEqual(["play"]);
      const plain = plainResults(evaluation);
      expect(plain.supposed).toEqual(["play"]);
      for (const strategy of plain.strategies) expect(JSON.stringify("offset" in strategy && strategy.offset)).toMatch(/only supposed/);
      const told = /SUPPOSED FOR THE MOMENT, and not as stated: play/;
      expect(summaryText(evaluation)).toMatch(told);
      expect(summaryText(evaluation)).not.toMatch(/G10 L2/);
      const record = recordOf(document, evaluation);
      expect(record.supposed).toMatch(told);
      expect(JSON.stringify(record)).not.toMatch(/G10 L2/);
    },
  );

  it("say which supposition changes nothing", () => {
    const demo = demoDocument();
    const suppose = (...sources: string[]) => ({ ...demo, whatIf: sources.map((source) => ({ source, shift: "1", doubt: "" })) });
    const told = (document: SetupDocument) => evaluateSetup(document).problems.map(({ at }) => at);
    expect(told(suppose("tool probe, radius"))).toEqual([]);
    expect(told(suppose("tool prob, radius"))).toEqual(["whatIf.tool prob, radius"]);
    // The radius comes from a cell with a source of its own: that of the tool is not there any more.
    const document = {
      ...suppose("tool probe, radius"),
      ledger: [cell("ring_radius", "2.9985 mm ± 0.0004 mm")],
      tools: demo.tools.map((tool) => (tool.id === "probe" ? { ...tool, radius: "ring_radius", radiusUncertainty: "" } : tool)),
    };
    expect(told(document)).toEqual(["whatIf.tool probe, radius"]);
    // Stated with its doubt in the entry it is the tool's own source.
    const stated = {
      ...document,
      tools: document.tools.map((tool) => (tool.id === "probe" ? { ...tool, radius: "2.9985 ± 0.0004" } : tool)),
    };
    expect(told(stated)).toEqual([]);
  });

  it("do not let a doubt hide a number that is likely to be in the other unit", () => {
    // 3 mm is a usual radius, 3 in is none.
    const demo = demoDocument();
    const tools = (radius: string) => demo.tools.map((tool) => (tool.id === "probe" ? { ...tool, radius, radiusUncertainty: "" } : tool));
    const told = (radius: string) =>
      evaluateSetup({ ...demo, unit: "inch", tools: tools(radius) }).problems.filter(({ at }) => at === "tools.probe.radius");
    expect(told("3")).toHaveLength(1);
    expect(told("3 ± 0.001")).toEqual([expect.objectContaining({ remedy: "write the unit behind the number" })]);
    expect(told("3 mm ± 0.001 mm")).toEqual([]);
  });
});
