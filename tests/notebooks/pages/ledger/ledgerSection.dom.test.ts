import { beforeEach, describe, expect, it, vi } from "vitest";
import { newDocument } from "../../../../lib/document/newDocument.ts";
import type { SetupDocument } from "../../../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../../../lib/evaluateSetup.ts";
import { loadFigures } from "../../../../notebooks/figures/loadFigures.ts";
import { demoDocument } from "../../../../notebooks/pages/firstJob.ts";
import { Sheet, type SheetOptions } from "../../../../notebooks/pages/sheet.ts";
import { namesOfDoubts } from "../../../../notebooks/pages/sheetResults.ts";
import { cell as block, column, table } from "../../../ledger/blocks.ts";

// Drawings come after what is typed and read.
await loadFigures();

// A page in jsdom is slow, and slower beside other tests.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

let sheet: Sheet;

const open = async (document: SetupDocument, onResults: SheetOptions["onResults"] = () => {}) => {
  sheet = new Sheet(document, { onDocument: () => {}, onResults, commands: globalThis.document.createElement("nav") });
  globalThis.document.body.replaceChildren(sheet.element);
  await settled();
};
/** An edit is worked out within its task, or says that it is drawn first; one that changes no result, such as a heading, settles nothing. */
const settled = () =>
  new Promise<void>((resolve) => {
    sheet.element.addEventListener("settled", () => resolve(), { once: true });
    const look = () => (sheet.element.dataset["state"] === "edited" ? setTimeout(look) : resolve());
    setTimeout(look);
  });
const own = () => sheet.element.querySelector("#ledger") as HTMLElement;
const named = (label: string) => {
  const found = sheet.element.querySelector<HTMLInputElement>(`[aria-label="${label}"]`);
  if (!found) throw new Error(`nothing is labelled "${label}"`);
  return found;
};
const button = (text: string) => [...own().querySelectorAll("button")].find(({ textContent }) => textContent === text) as HTMLButtonElement;
const click = async (text: string) => {
  const done = settled();
  button(text).click();
  await done;
};
const type = async (label: string, text: string) => {
  const control = named(label);
  control.focus();
  control.value = text;
  const done = settled();
  control.dispatchEvent(new InputEvent("input", { bubbles: true }));
  await done;
  control.blur();
};
const press = (key: string, more: KeyboardEventInit = {}) =>
  document.activeElement?.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true, ...more }));
const comesTo = (name: string) => {
  const result = own().querySelector(`[aria-label="${name}"] .result`);
  return [result?.querySelector(".value")?.textContent, result?.querySelector("small")?.textContent];
};
const blockNames = () => [...own().querySelectorAll(".block.cell, .block.table")].map((each) => each.getAttribute("aria-label"));

describe("an empty ledger", () => {
  beforeEach(() => open(newDocument()));

  it("says in a sentence what it is for, and a cell is added, named and worked out as it is typed", async () => {
    expect(own().querySelector(".blocks")?.textContent).toContain("Nothing is written here yet");
    await click("add a cell");
    expect(document.activeElement?.getAttribute("aria-label")).toBe("cell_1, name");
    await type("cell_1, name", "wall");
    await type("wall, entry", "12.500 mm ± 0.002 mm");
    // The standard uncertainty to two digits, the value to match (JCGM 100:2008, 7.2.6).
    expect(comesTo("wall")).toEqual(["12.5000 mm", "u 0.0020"]);
    await type("wall, entry", "2 in");
    expect(comesTo("wall")).toEqual(["50.8 mm", "no doubt"]);
  });

  it("says, when the page is idle, where u to first order is not all there is", async () => {
    await click("add a cell");
    await type("cell_1, name", "arm");
    await type("arm, entry", "1.0 mm ± 0.1 mm");
    await click("add a cell");
    await type("cell_1, name", "area");
    // Var(a²) = 4 μ² σ² + 2 σ⁴ for a normal a: u = √(0.04 + 0.0002) = 0.2005, which changes no digit of 0.20.
    await type("area, entry", "arm * arm");
    expect(comesTo("area")).toEqual(["1.00 mm^2", "u 0.20"]);
    await type("arm, entry", "1.0 mm ± 0.4 mm");
    // u = √(0.64 + 0.0512) = 0.831.
    await vi.waitFor(() => expect(comesTo("area")[1]).toBe("u 0.80; with its bend 0.83"));
    await type("arm, entry", "1 mm ± 1 mm");
    await vi.waitFor(() => expect(comesTo("area")[1]).toBe("u 2.0; bends too much"));
    await type("arm, entry", "1.0 mm ± 0.1 mm");
    expect(comesTo("area")[1]).toBe("u 0.20");
  });

  it("takes every edit back and does it again, one step for each entry that was left", async () => {
    await click("add a cell");
    await type("cell_1, name", "wall");
    await type("wall, entry", "12.5 mm");
    const after = sheet.document;
    for (const _ of [1, 2, 3]) sheet.undo();
    expect(sheet.document.ledger).toEqual([]);
    for (const _ of [1, 2, 3]) sheet.redo();
    expect(sheet.document).toBe(after);
  });

  it("holds headings, words and tables between cells, behind the one that was stood on", async () => {
    await click("add a heading");
    await click("add a cell");
    named("heading").focus();
    await click("add a paragraph");
    await click("add a table");
    expect(sheet.document.ledger.map(({ kind }) => kind)).toEqual(["heading", "paragraph", "table", "cell"]);
  });
});

describe("a ledger with cells", () => {
  beforeEach(() =>
    open({
      ...demoDocument(),
      ledger: [
        { kind: "heading", text: "Walls", folded: false },
        block("gap", "left_face + ring"),
        block("ring", "3 mm ± 0.001 mm"),
        block("twice", "2 * gap"),
      ],
      tools: demoDocument().tools.map((tool, i) => (i === 0 ? { ...tool, radius: "ring", radiusUncertainty: "" } : tool)),
    }),
  );

  it("renames every use in formulas and entries, keeps the focus, and refuses what formulas would understand otherwise", async () => {
    await type("ring, name", "ball");
    expect(sheet.document.ledger.map((each) => (each.kind === "cell" ? each.entry : ""))).toEqual([
      "",
      "left_face + ball",
      "3 mm ± 0.001 mm",
      "2 * gap",
    ]);
    expect(sheet.document.tools[0]?.radius).toBe("ball");
    const control = named("ball, name");
    control.focus();
    for (const [wrong, reason] of [
      ["mm", "means something else"],
      ["gap", '"gap" is the name of something else: another cell'],
      ["zero_X", '"zero_X" is the name of something else: the X of part zero in the machine, by the chosen strategy'],
      ["probe_radius", "such as probe_radius_2. Until then the name stays as it was."],
      // Nothing is behind it yet; a cell of that name would come to share it with the tool's.
      ["probe_length", 'a quantity of the tool "probe"'],
      ["two words", "cannot stand in a formula"],
    ] as const) {
      control.value = wrong;
      control.dispatchEvent(new InputEvent("input", { bubbles: true }));
      expect(own().querySelector(".wrong")?.textContent).toContain(reason);
      expect(control.getAttribute("aria-invalid")).toBe("true");
    }
    control.blur();
    expect(control.value).toBe("ball");
    expect(named("ball, name").getAttribute("aria-invalid")).toBeNull();
    // What was typed is gone, and says why.
    expect(sheet.element.querySelector(".said")?.textContent).toMatch(/^The name stays as it was: .*cannot stand in a formula/);
  });

  it("says who misses a cell that is removed, and undo brings it back", async () => {
    named("gap, name").focus();
    expect(own().querySelector(".understood")?.textContent).toContain("On it depend twice.");
    const done = settled();
    press("Delete", { altKey: true });
    await done;
    expect(blockNames()).toEqual(["ring", "twice"]);
    expect(sheet.element.querySelector(".said")?.textContent).toBe("gap is removed; undo brings it back. Without it there is no twice.");
    expect(own().querySelector('[aria-label="twice"] .words-of-block')?.textContent).toContain("gap");
    expect(comesTo("twice")[0]).toBe("–");
    sheet.undo();
    expect(blockNames()).toEqual(["gap", "ring", "twice"]);
  });

  it("moves a cell with Alt and the arrows, and the focus goes with it", async () => {
    named("twice, entry").focus();
    press("ArrowUp", { altKey: true });
    expect(blockNames()).toEqual(["gap", "twice", "ring"]);
    expect(document.activeElement).toBe(named("twice, entry"));
  });

  it("folds a group up and hides single cells, which go on counting", async () => {
    const before = comesTo("twice");
    named("ring, name").focus();
    await click("hide");
    expect(blockNames()).toEqual(["gap", "twice"]);
    expect(comesTo("twice")).toEqual(before);
    button("show 1 hidden").click();
    expect(blockNames()).toEqual(["gap", "ring", "twice"]);
    own().querySelector<HTMLElement>('[aria-label="fold Walls"]')?.click();
    expect(blockNames()).toEqual([]);
    expect(own().querySelector(".blocks")?.textContent).not.toContain("Nothing is written");
  });

  it("tells a person who stands on a cell what it is made of", () => {
    named("gap, name").focus();
    const made = sheet.element.querySelector(".made-of") as HTMLElement;
    expect(made.hidden).toBe(false);
    expect([...made.querySelectorAll(".formula")].map(({ textContent }) => textContent)).toEqual([
      "= left_face + ring",
      expect.stringMatching(/^= −\d+\.\d+ mm \+ 3\.0000 mm$/),
    ]);
    expect([...made.querySelectorAll(".links button")].map(({ textContent }) => textContent)).toEqual(["left_face", "ring", "twice"]);
    expect(made.querySelectorAll("svg")).toHaveLength(3);
    expect(made.querySelector("svg.fig-trace desc")?.textContent).toBe("gap is made from left_face, ring. On it depend twice.");
    (made.querySelector(".links button") as HTMLElement).click();
    expect(document.activeElement?.getAttribute("aria-label")).toBe("left, name");
    named("ring, name").focus();
    expect([...made.querySelectorAll(".links button")].map(({ textContent }) => textContent)).toContain("tools.probe.radius");
  });

  it("strikes the stated entry out while another one counts, says so at the top, withholds the lines to type, and takes it back", async () => {
    named("ring, name").focus();
    button("suppose").click();
    expect(document.activeElement).toBe(named("ring, for the moment"));
    await type("ring, for the moment", "3.1 mm");
    const banner = sheet.element.querySelector<HTMLElement>(".suppositions") as HTMLElement;
    expect(banner.hidden).toBe(false);
    expect(banner.textContent).toContain("What is shown rests on suppositions: ring is 3.1 mm.");
    expect(comesTo("ring")).toEqual(["3.1 mm", "no doubt"]);
    expect(named("ring, entry").value).toBe("3 mm ± 0.001 mm");
    expect(sheet.element.querySelector<HTMLElement>(".lines")?.hidden).toBe(true);
    const done = settled();
    banner.querySelector("button")?.click();
    await done;
    expect(banner.hidden).toBe(true);
    expect(sheet.element.querySelector(".lines")?.textContent).toContain("G10");
    expect(comesTo("ring")).toEqual(["3.0000 mm", "u 0.0010"]);
  });

  it("shows all results in inches at a switch, and leaves every entry as typed", async () => {
    const before = sheet.document;
    const done = settled();
    const inches = [...sheet.element.querySelectorAll<HTMLInputElement>(".unit-choice input")].at(-1) as HTMLInputElement;
    inches.click();
    await done;
    // 3 mm ± 0.001 mm over 25.4.
    expect(comesTo("ring")).toEqual(["0.118110 in", "u 0.000039"]);
    expect(sheet.document).toBe(before);
    expect(named("ring, entry").value).toBe("3 mm ± 0.001 mm");
    expect(sheet.element.querySelector(".unit-choice small")?.textContent).toBe("entries stay in mm");
    expect(sheet.element.querySelector(".title-block .zero .label")?.textContent).toBe("X zero, in");
  });
});

it("a slider over a source moves what rests on it, and the comparison tells why", async () => {
  await open({ ...demoDocument(), ledger: [block("ring", "3 mm ± 0.002 mm"), block("twice", "2 * ring")] });
  named("twice, name").focus();
  named("Source to suppose otherwise").value = "cell ring";
  await click("lay a slider over it");
  const slider = named("cell ring, shifted by, in standard uncertainties");
  for (const value of ["0.5", "1"]) {
    const done = settled();
    slider.value = value;
    slider.dispatchEvent(new Event("input"));
    await done;
  }
  // 2 · (3 mm + 1 · 0.002 mm), by hand.
  expect(comesTo("twice")).toEqual(["6.0040 mm", "u 0.0040"]);
  const rows = [...own().querySelectorAll(".compared tbody tr")].map((row) => [...row.children].map(({ textContent }) => textContent));
  expect(rows).toContainEqual(["twice", "6.0000 u 0.0040 mm", "6.0040 u 0.0040 mm", "+0.00400 mm"]);
  expect(own().querySelector(".reasons")?.textContent).toContain("twice moves by +0.00400 mm: +0.00400 mm because “ring” moved.");
  expect(sheet.element.querySelector(".suppositions")?.textContent).toContain("“cell ring” shifted by +1 u");
  sheet.undo();
  expect(sheet.document.whatIf).toEqual([{ source: "cell ring", shift: "", doubt: "" }]);
});

it("offers a slider over any source: also of rows of tables, and of what no zero rests on", async () => {
  const spare = { ...(demoDocument().tools[0] as (typeof sheet.document.tools)[number]), id: "spare", radiusUncertainty: "0.003" };
  await open({
    ...demoDocument(),
    tools: [...demoDocument().tools, spare],
    ledger: [table("pins", ["size"], [["6 mm ± 0.001 mm"]]), block("apart", "spare_radius - 1 mm")],
  });
  const choice = own().querySelector('[aria-label="Source to suppose otherwise"]') as HTMLSelectElement;
  const offered = [...choice.options].map(({ value }) => value);
  const { results } = sheet;
  if (results === undefined) throw new Error("nothing was worked out");
  for (const name of [...namesOfDoubts(results), "cell pins_size 1", "tool spare, radius"]) expect(offered).toContain(name);
  expect(new Set(offered).size).toBe(offered.length);
});

it("says of a cell that a new tool has come to share its name, to whoever hosts the sheet as well", async () => {
  const demo = demoDocument();
  let told: readonly { readonly at: string }[] = [];
  await open({ ...demo, ledger: [block("gauge_radius", "7 mm")] }, (evaluation) => {
    told = evaluation?.problems ?? [];
  });
  expect(told).toEqual([]);
  const tool = { ...(demo.tools[0] as (typeof demo.tools)[number]), id: "gauge" };
  const done = settled();
  sheet.open({ ...sheet.document, tools: [...demo.tools, tool] }, "another tool");
  await done;
  expect(told.map(({ at }) => at)).toEqual(["ledger.gauge_radius.id"]);
  // What the page tells is what the command line does.
  expect(told).toEqual(evaluateSetup(sheet.document).problems);
  expect(own().querySelector(".words-of-block")?.textContent).toContain("is also the effective radius of gauge");
});

it("tells of a cell that shares its name who means the other when it is removed", async () => {
  const demo = demoDocument();
  const ledger = [block("probe_radius", "7 mm"), block("twice", "2 * probe_radius"), block("more", "twice + 1 mm")];
  await open({ ...demo, tools: demo.tools.map((tool, i) => (i === 0 ? { ...tool, length: "" } : tool)), ledger });
  expect(comesTo("twice")[0]).toBe("14 mm");
  named("probe_radius, name").focus();
  const done = settled();
  press("Delete", { altKey: true });
  await done;
  expect(sheet.element.querySelector(".said")?.textContent).toBe(
    'probe_radius is removed; undo brings it back. By "probe_radius" the formulas behind twice, more now mean the effective radius of probe.',
  );
});

it("tells what formulas of rows mean when a column that they named is removed", async () => {
  const pins = {
    ...table("pins", ["size", "ring"], [["6 mm", "7 mm"]]),
    columns: [column("size"), column("ring"), column("play", { formula: "ring - size" })],
  };
  await open({ ...newDocument(), ledger: [block("ring", "9 mm"), pins] });
  const done = settled();
  [...own().querySelectorAll<HTMLButtonElement>(".columns-of-table .line:nth-of-type(2) button")]
    .find(({ textContent }) => textContent === "remove")
    ?.click();
  await done;
  expect(sheet.element.querySelector(".said")?.textContent).toContain('By "ring" the formulas of play now mean "ring" of this ledger.');
});

it("keeps a formula from reading a cell when a tool takes its name", async () => {
  const demo = demoDocument();
  await open({ ...demo, ledger: [block("gauge_radius", "7 mm"), block("twice", "2 * probe_radius")] });
  const before = comesTo("twice");
  await type("probe, name", "gauge");
  expect(sheet.document.tools[0]?.id).toBe("gauge");
  expect(sheet.document.ledger[1]).toMatchObject({ entry: "2 * probe_radius" });
  expect(comesTo("twice")[0]).toBe("–");
  expect(own().querySelector('[aria-label="twice"] .words-of-block')?.textContent).toContain('unknown name "probe_radius"');
  expect(own().querySelector('[aria-label="gauge_radius"] .words-of-block')?.textContent).toContain(
    "is also the effective radius of gauge",
  );
  const done = settled();
  sheet.undo();
  await done;
  expect(comesTo("twice")).toEqual(before);
});

it("compares with what is stated now, also where that was edited before or while something is supposed", async () => {
  await open({ ...newDocument(), ledger: [block("ring", "3 mm ± 0.002 mm"), block("twice", "2 * ring")] });
  await type("ring, entry", "4 mm ± 0.002 mm");
  const rows = () =>
    [...own().querySelectorAll(".compared tbody tr")].map((row) => [...row.children].map(({ textContent }) => textContent));
  const slide = async (value: string) => {
    const slider = own().querySelector<HTMLInputElement>('input[type="range"]') as HTMLInputElement;
    const done = settled();
    slider.value = value;
    slider.dispatchEvent(new Event("input"));
    await done;
  };
  named("ring, entry").focus();
  (own().querySelector('[aria-label="Source to suppose otherwise"]') as HTMLSelectElement).value = "cell ring";
  await click("lay a slider over it");
  await slide("1");
  // 2 · 4 mm as stated, and one u of 0.002 mm on it, by hand.
  expect(rows()).toContainEqual(["twice", "8.0000 u 0.0040 mm", "8.0040 u 0.0040 mm", "+0.00400 mm"]);
  await type("twice, entry", "3 * ring");
  expect(rows()).toContainEqual(["twice", "12.0000 u 0.0060 mm", "12.0060 u 0.0060 mm", "+0.00600 mm"]);
});

it("tells a person who stands on an entry of a free table what it is made of, and the others of its row", async () => {
  const columns = [column("size"), column("twice", { formula: "2 * size + play" })];
  const pins = { ...table("pins", [], [["3 mm ± 0.003 mm"], ["play + 1 mm"]]), columns };
  await open({ ...newDocument(), ledger: [block("play", "0.5 mm ± 0.008 mm"), pins] });
  const made = sheet.element.querySelector(".made-of") as HTMLElement;
  const title = () => made.querySelector(".name")?.textContent;
  const formulas = () =>
    [...made.querySelectorAll<HTMLElement>(".formula")].flatMap(({ hidden, textContent }) => (hidden ? [] : [textContent]));
  named("1, size").focus();
  expect(title()).toBe("pins_size, row 1");
  expect(formulas()).toEqual(["= 3 mm ± 0.003 mm"]);
  expect(made.querySelector("svg.fig-budget desc")?.textContent).toMatch(/Together u\s=\s0\.0030\smm/);
  [...made.querySelectorAll("button")].find(({ textContent }) => textContent === "twice")?.click();
  expect(title()).toBe("pins_twice, row 1");
  expect(formulas()).toEqual(["= 2 * size + play", "= 2 * 3.0000 mm + 0.5000 mm"]);
  // By hand: the root of (2 · 0.003)² + 0.008².
  expect(made.querySelector("svg.fig-budget desc")?.textContent).toMatch(/Together u\s=\s0\.010\smm/);
  named("2, size").focus();
  expect(title()).toBe("pins_size, row 2");
  expect(formulas()).toEqual(["= play + 1 mm", "= 0.5000 mm + 1 mm"]);
  expect(made.querySelector("svg.fig-trace desc")?.textContent).toMatch(/^pins_size, row 2 is made from play\./);
  own()
    .querySelectorAll<HTMLElement>("td.result")[1]
    ?.dispatchEvent(new MouseEvent("click", { bubbles: true }));
  expect(title()).toBe("pins_twice, row 2");
});

it("a free table has columns of a person's own, a formula for every row, and is used by a cell", async () => {
  await open(newDocument());
  await click("add a table");
  const labelled = (label: string) =>
    [...own().querySelectorAll("label")].find(({ textContent }) => textContent === label)?.nextElementSibling as HTMLInputElement;
  const enter = async (control: HTMLInputElement, text: string) => {
    control.focus();
    control.value = text;
    const done = settled();
    control.dispatchEvent(new InputEvent("input", { bubbles: true }));
    await done;
    control.blur();
  };
  await enter(labelled("column"), "size");
  expect(sheet.document.ledger[0]).toMatchObject({ kind: "table", columns: [{ id: "size" }] });
  await enter(named("1, size"), "12.5 mm");
  await click("add a column");
  const [, , lastFormula] = [...own().querySelectorAll<HTMLInputElement>(".columns-of-table .line:last-of-type [data-cell]")];
  await enter(lastFormula as HTMLInputElement, "size / 2");
  await click("add a cell");
  await type("cell_1, entry", "sum(table_1_column_2)");
  expect(comesTo("cell_1")).toEqual(["6.25 mm", "no doubt"]);
  expect(own().querySelector(".ledger td.result .value")?.textContent).toBe("6.25 mm");
  // Whoever takes a column out is told which formulas go with it.
  const done = settled();
  [...own().querySelectorAll<HTMLButtonElement>(".columns-of-table .line:last-of-type button")]
    .find(({ textContent }) => textContent === "remove")
    ?.click();
  await done;
  expect(sheet.element.querySelector(".said")?.textContent).toBe(
    "The column column_2 is removed; undo brings it back. Without it there is no cell_1.",
  );
});

it("a free table is sorted by what its entries come to, in the unit of their column and with their doubts, and by its formulas", async () => {
  const rows = [["900"], ["0.5 mm"], ["700 ± 3"], ["nothing of the kind"], [""], ["300 * 2"]];
  const gauge = { ...table("gauge", [], rows), columns: [column("size", { unit: "um" }), column("less", { formula: "-size^3" })] };
  await open({ ...newDocument(), ledger: [gauge] });
  const sizes = () => (sheet.document.ledger[0]?.kind === "table" ? sheet.document.ledger[0].rows.map(([size]) => size) : []);
  const sort = async () => {
    const done = settled();
    [...own().querySelectorAll<HTMLButtonElement>(".ledger button")].find(({ textContent }) => textContent === "sort")?.click();
    await done;
  };
  named("1, size, um").focus();
  await sort();
  // In micrometres: 500, 600, 700, 900; words behind them, and nothing last.
  expect(sizes()).toEqual(["0.5 mm", "300 * 2", "700 ± 3", "900", "nothing of the kind", ""]);
  await sort();
  expect(sizes().at(-1)).toBe("");
  expect(sizes().filter((size) => /^\d/.test(size ?? ""))).toEqual(["900", "700 ± 3", "300 * 2", "0.5 mm"]);
});

it("a column says what the doubts of its rows rest on, and with how many decimals its formula is shown", async () => {
  const columns = [column("size"), column("half", { formula: "size / 2" })];
  await open({ ...newDocument(), ledger: [{ ...table("pins", [], [["6.0012 mm ± 0.0004 mm"]]), columns }] });
  const entries = (label: string) =>
    [...own().querySelectorAll("label")].flatMap(({ textContent, htmlFor }) =>
      textContent === label ? [own().querySelector(`[id="${htmlFor}"]`) as HTMLInputElement | HTMLSelectElement] : [],
    );
  const enter = async (control: HTMLInputElement | HTMLSelectElement | undefined, text: string) => {
    if (control === undefined) throw new Error("there is no such entry");
    const done = settled();
    control.focus();
    control.value = text;
    control.dispatchEvent(new Event("input", { bubbles: true }));
    await done;
    control.blur();
  };
  await enter(entries("doubt rests on")[0], "certificate");
  await enter(entries("family of its doubt")[0], "contact tool");
  await enter(entries("decimals")[1], "2");
  expect(sheet.document.ledger[0]).toMatchObject({
    columns: [
      { id: "size", evidence: "certificate", family: "contact tool", decimals: "" },
      { id: "half", evidence: "stated", family: "process", decimals: "2" },
    ],
  });
  // 6.0012 / 2, by hand, to two decimals.
  expect(own().querySelector(".ledger td.result .value")?.textContent).toBe("3.00 mm");
  sheet.undo();
  sheet.undo();
  sheet.undo();
  expect(sheet.document.ledger[0]).toMatchObject({ columns });
});

it("says which formulas go with a row of the setup that is removed", async () => {
  await open({ ...demoDocument(), ledger: [block("wall", "left_face + 1 mm"), block("twice", "2 * wall")] });
  named("left, name").focus();
  const done = settled();
  [...sheet.element.querySelectorAll<HTMLButtonElement>('[data-table="touches"] ~ * button, #touches button')]
    .find(({ textContent }) => textContent === "remove")
    ?.click();
  await done;
  expect(sheet.element.querySelector(".said")?.textContent).toBe(
    "left is removed; undo brings it back. Without it there is no wall, twice.",
  );
});

it("offers every source that enters a result of the strategy for a supposition, those of characteristics too", async () => {
  await open(demoDocument());
  const groups = [...own().querySelectorAll<HTMLOptGroupElement>(".what-if optgroup")];
  const ofCharacteristics = groups.find(({ label }) => label === "in characteristics");
  expect([...(ofCharacteristics?.children ?? [])].map(({ textContent }) => textContent)).toContain("cutting hole 2, X");
});
