import { beforeEach, describe, expect, it, vi } from "vitest";
import { loadFigures } from "../../../notebooks/figures/loadFigures.ts";
import { demoDocument } from "../../../notebooks/pages/firstJob.ts";
import { Sheet } from "../../../notebooks/pages/sheet.ts";

// Drawings come after what is typed and read.
await loadFigures();

/** Makes the evaluation throw, as only a mistake of the library's own can. */
const broken = vi.hoisted(() => ({ now: false }));
vi.mock("../../../lib/evaluateSetup.ts", async (original) => {
  const real = await original<typeof import("../../../lib/evaluateSetup.ts")>();
  return {
    ...real,
    evaluateStrategies: (...given: Parameters<typeof real.evaluateStrategies>) => {
      if (broken.now) throw new RangeError("a result is not finite");
      return real.evaluateStrategies(...given);
    },
  };
});

let sheet: Sheet;
let kept: string[];

beforeEach(async () => {
  broken.now = false;
  kept = [];
  sheet = new Sheet(demoDocument(), {
    onDocument: (document) => kept.push(JSON.stringify(document)),
    commands: document.createElement("nav"),
  });
  document.body.replaceChildren(sheet.element);
  await settled();
});

const settled = () => new Promise((resolve) => sheet.element.addEventListener("settled", resolve, { once: true }));
const cell = (label: string) => document.querySelector<HTMLInputElement>(`[aria-label="${label}"]`) as HTMLInputElement;
const type = async (label: string, text: string) => {
  const control = cell(label);
  control.focus();
  control.value = text;
  const done = settled();
  control.dispatchEvent(new InputEvent("input", { bubbles: true }));
  await done;
};
const zeros = () => [...document.querySelectorAll(".title-block .zero b")].map(({ textContent }) => textContent);
const figures = () => document.querySelectorAll("figure svg").length;

it("a sheet shows a document worked out: title block, seven figures, sentences and cautions", () => {
  expect(sheet.element.dataset["state"]).toBe("settled");
  expect(zeros()).toEqual(["−318.3995", "−176.9010", "−284.6005"]);
  expect(figures()).toBe(7);
  expect(document.querySelectorAll(".sentences p").length).toBeGreaterThan(3);
  expect(document.querySelectorAll(".cautions li").length).toBeGreaterThan(8);
});

it("a sheet works out an edit before it gives the page back, and has every letter kept", async () => {
  await type("b1, readings", "-290.288");
  // Half of the way that one of two opposite touches has moved.
  expect(Number(zeros()[0]?.replace("−", "-"))).toBeCloseTo(-318.3495, 3);
  await type("b1, readings", "-290.288 +");
  expect(kept.map((text) => JSON.parse(text).touches[0].readings)).toEqual(["-290.288", "-290.288 +"]);
});

it("a sheet whose results failed shows none of the old ones, says why, and recovers with the next edit", async () => {
  broken.now = true;
  await type("b1, readings", "-290.288");
  expect(sheet.element.dataset["state"]).toBe("failed");
  expect(zeros()).toEqual(["–", "–", "–"]);
  expect(figures()).toBe(0);
  expect(document.querySelector("figure .reason")?.textContent).toContain("a result is not finite");
  expect(document.querySelector(".open-problems")?.textContent).toContain("a result is not finite");
  expect([...document.querySelectorAll(".result .value")].every(({ textContent }) => textContent === "–")).toBe(true);
  expect(document.querySelector(".lines")?.textContent).toBe("");
  expect(document.querySelectorAll(".sentences p")).toHaveLength(0);
  broken.now = false;
  await type("b1, readings", "-290.289");
  expect(sheet.element.dataset["state"]).toBe("settled");
  expect(figures()).toBe(7);
});

it("a sheet tells an edit of the notes from one of the readings: no mark of a figure changes", async () => {
  // Standing on a touch marks it in the sketch.
  cell("b1, note").focus();
  // How sure the numbers are is worked out later, by another; nobody stands on a cell of the ledger; a fixture locates whatever is read.
  const views = [...document.querySelectorAll("figure .view")].filter(
    (view) => view.closest(".certainty, .made-of, #fixture, [hidden]") === null,
  );
  const drawn = () => views.map((view) => view.innerHTML);
  const changes: MutationRecord[] = [];
  const observer = new MutationObserver((records) => changes.push(...records));
  for (const view of views) observer.observe(view, { subtree: true, childList: true, attributes: true, characterData: true });
  const before = drawn();
  await type("b1, note", "first touch");
  expect(changes).toHaveLength(0);
  await type("b1, readings", "-290.2");
  expect(changes.length).toBeGreaterThan(0);
  expect(drawn().every((picture, i) => picture !== before[i])).toBe(true);
  observer.disconnect();
});

it("a sheet that opens another document brings the former back on undo", async () => {
  const opened = settled();
  sheet.open({ ...demoDocument(), chosen: "corner", title: "Another" }, "opening");
  await opened;
  expect(zeros()[0]).toBe("−398.4218");
  const undone = settled();
  sheet.undo();
  await undone;
  expect(zeros()[0]).toBe("−318.3995");
  expect(sheet.document.title).toBe("Bearing cover, second side");
});

/** What stands beneath the chance of this part, and the whole sentence that is told to whoever points at it. */
const verdicts = () =>
  ["hole 1", "slot depth", "wall"].map((name) => {
    const row = document.querySelector(`[aria-label="${name}, tolerance"]`)?.closest("tr");
    const shown = row?.querySelector<HTMLElement>('[data-column="thisPart"]');
    return {
      below: shown?.querySelector("small")?.textContent ?? "",
      told: shown?.title ?? "",
      batch: row?.querySelector('[data-column="batch"] small')?.textContent ?? "",
    };
  });
const enter = async (id: string, text: string) => {
  const control = document.getElementById(id) as HTMLInputElement | HTMLSelectElement;
  control.focus();
  control.value = text;
  const done = settled();
  control.dispatchEvent(new InputEvent("input", { bubbles: true }));
  await done;
};

it("the table of characteristics says nothing of verdicts under simple acceptance, and each one under a stated rule", async () => {
  expect(verdicts().map(({ below }) => below)).toEqual(["", "", ""]);
  await enter("decision-rule", "guarded acceptance");
  // Chances above 99.99 % are above the usual 95 %.
  expect(verdicts().map(({ below }) => below)).toEqual(["would pass", "would pass", "would pass"]);
  const [hole, depth] = verdicts();
  // A position has one along the direction in which it is off; a normal of u = 0.0071 within ±0.05 keeps 1.645 u = 0.0116 (JCGM 106:2012, 8.3.2; Φ(1.645) = 0.95).
  expect(hole?.told).toContain("“hole 1”".replaceAll(/[“”]/g, '"'));
  expect(hole?.told).toMatch(/accepted up to 0\.1\d+, a guard band of 0\.0\d+/);
  expect(depth?.told).toMatch(/accepted from [−-]0\.038\d to 0\.038\d, guard bands of 0\.011\d/);
  // Nothing of a batch is measured, so nothing of it is decided.
  expect(verdicts().map(({ batch }) => batch)).toEqual(["", "", ""]);
});

it("the table of characteristics follows reading and rule: what is out would not pass, and between the two proofs neither is proven", async () => {
  await enter("decision-rule", "proof either way");
  await type("wall, tolerance", "+0.0612 -0.2");
  expect(verdicts()[2]?.below).toBe("neither proven");
  await type("wall, tolerance", "+0.02 -0.2");
  expect(verdicts()[2]?.below).toBe("would not pass");
  expect(verdicts()[2]?.told).toContain("rejected by proof either way");
});

it("a probability that cannot be read decides nothing, and says so at the rule's own entry", async () => {
  await enter("decision-rule", "guarded acceptance");
  await enter("decision-conformanceProbability", "40 %");
  expect(document.getElementById("decision-conformanceProbability")?.getAttribute("aria-invalid")).toBe("true");
  expect(document.getElementById("decision-conformanceProbability-words")?.textContent).toContain("expected from 50 % to below 100 %");
  expect(verdicts().map(({ below }) => below)).toEqual(["not decided", "not decided", "not decided"]);
  await enter("decision-conformanceProbability", "99.9");
  expect(verdicts()[0]?.below).toBe("not decided");
  await enter("decision-conformanceProbability", "0.999");
  expect(verdicts()[0]?.below).toBe("would pass");
});

it("the title block tells what is only supposed, and the lines to type are not given", async () => {
  const labels = () =>
    [...document.querySelectorAll(".title-block .zero .label, .title-block .chance .label")].map(({ textContent }) => textContent);
  expect(labels()).toEqual(["X zero, mm", "Y zero, mm", "Z zero, mm", "all met, this part", "all met, the batch"]);
  const done = settled();
  sheet.open({ ...sheet.document, whatIf: [{ source: "tool probe, radius", shift: "2", doubt: "" }] }, "a supposition");
  await done;
  expect(labels().every((label) => label?.startsWith("supposed: "))).toBe(true);
  expect(document.querySelector<HTMLElement>(".lines")?.hidden).toBe(true);
  const back = settled();
  sheet.undo();
  await back;
  expect(labels()[0]).toBe("X zero, mm");
  expect(document.querySelector<HTMLElement>(".lines")?.hidden).toBe(false);
});

// 160 h9 is 0/-0.100, 62 H7 +0.030/0 (ISO 286-2, from memory); 160 is ±0.5 by ISO 2768-m (ISO 2768-1, table 1).
it("the table of dimensions shows what a class or the general tolerance permits, and which standard says so", async () => {
  const limits = () => {
    const shown = cell("length, tolerance").closest("tr")?.querySelector('[data-column="limits"]');
    return [shown?.querySelector(".value")?.textContent, shown?.querySelector("small")?.textContent ?? ""];
  };
  expect(limits()).toEqual(["±0.3", ""]);
  await type("length, tolerance", "h9");
  expect(limits()).toEqual(["0 / −0.1", "ISO 286 h9"]);
  await type("length, tolerance", "H9");
  expect(document.querySelector(".open-problems")?.textContent).toContain("H9 is a class of holes, and this is a shaft");
  await type("length, tolerance", "");
  expect(limits()).toEqual(["exact", ""]);
  await enter("part-generalTolerance", "ISO 2768-m");
  expect(limits()).toEqual(["±0.5", "ISO 2768-m"]);
  expect(sheet.document.part.generalTolerance).toBe("ISO 2768-m");
  cell("bore, its tolerance").focus();
  expect(document.body.textContent).toContain("Its diameter: +0.03 / 0 mm by ISO 286 H7.");
});

describe("the table of doubts that err together", () => {
  const open = async (rows: readonly { one: string; other: string; coefficient: string }[]) => {
    const correlations = rows.map((row, i) => ({ id: `pair ${i + 1}`, ...row, evidence: "stated" as const, note: "" }));
    const done = settled();
    sheet.open({ ...demoDocument(), correlations }, "an example");
    await done;
  };
  const inUse = () =>
    [...document.querySelectorAll('[data-table="correlations"] [data-column="correlation in use"] .value')].map(
      ({ textContent }) => textContent,
    );
  const doubtsOfSizes = () =>
    [...document.querySelectorAll('[data-table="part.dimensions"] .result small')].map(({ textContent }) => textContent).join(" ");

  it("takes a coefficient and shows the one in use; the sizes that both doubts are in follow", async () => {
    await open([{ one: "element left, roughness", other: "element right, roughness", coefficient: "1" }]);
    expect(inUse()).toEqual(["1.00"]);
    const together = doubtsOfSizes();
    await type("pair 1, coefficient", "-1");
    expect(inUse()).toEqual(["−1.00"]);
    expect(doubtsOfSizes()).not.toBe(together);
  });

  it("tells what is wrong at the entry, and shows no zero that would be wrong without the row", async () => {
    await open([{ one: "element left, roughness", other: "element right, roughness", coefficient: "1" }]);
    await type("pair 1, coefficient", "1.5");
    expect(cell("pair 1, coefficient").getAttribute("aria-invalid")).toBe("true");
    expect(zeros()).toEqual(["–", "–", "–"]);
    expect(document.querySelector(".open-problems")?.textContent).toContain("expected a number from -1 to 1");
    await type("pair 1, coefficient", "0");
    expect(zeros()).toEqual(["−318.3995", "−176.9010", "−284.6005"]);
  });

  it("offers the doubts that there are, by the names that budgets have", async () => {
    await open([{ one: "", other: "", coefficient: "" }]);
    const select = cell("pair 1, this doubt") as unknown as HTMLSelectElement;
    select.focus();
    const offered = [...select.options].map(({ value }) => value);
    expect(offered).toEqual(expect.arrayContaining(["", "tool probe, radius", "touch b1, scatter", "element left, roughness"]));
    // Nothing is stated of it, so nothing is in doubt about it.
    expect(offered).not.toContain("element bore, lean");
  });
});
