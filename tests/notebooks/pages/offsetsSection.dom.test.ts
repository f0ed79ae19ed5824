import { beforeEach, expect, it, vi } from "vitest";
import { blankEntries } from "../../../lib/document/blankEntries.ts";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { demoDocument } from "../../../notebooks/pages/firstJob.ts";
import { Sheet } from "../../../notebooks/pages/sheet.ts";
import { leavesStanding, onlyAdded } from "../../../notebooks/pages/tables/offsets.ts";

let sheet: Sheet;
let present: SetupDocument;

// The sums are those of the command line's tests, by hand: -412.607 + 0.02 = -412.587, and 0.5 more with the shift.
const log = [
  { ...blankEntries.offset("first"), register: "G54", x: "-412.607 mm ± 0.002 mm", y: "-203.112" },
  { ...blankEntries.offset("boss"), kind: "correction" as const, register: "G54", x: "0.02", why: "first article" },
  { ...blankEntries.offset("dry run"), kind: "global shift" as const, x: "0.5" },
];

const open = async (offsets: SetupDocument["offsets"]) => {
  present = { ...demoDocument(), offsets };
  sheet = new Sheet(present, {
    onDocument: (next) => {
      present = next;
    },
    commands: document.createElement("nav"),
  });
  document.body.replaceChildren(sheet.element);
  await settled();
};
const settled = () => new Promise((resolve) => sheet.element.addEventListener("settled", resolve, { once: true }));
const section = () => document.querySelector("#offsets") as HTMLElement;
const sums = () =>
  [...section().querySelectorAll(".plain tbody tr")].map((line) => [...line.children].map(({ textContent }) => textContent).join(" "));
const pressNow = (name: string) =>
  ([...section().querySelectorAll("button")].find(({ textContent }) => textContent === name) as HTMLButtonElement).click();
const press = async (name: string) => {
  const done = settled();
  pressNow(name);
  await done;
};
const enter = (id: string, text: string) => {
  const control = document.querySelector<HTMLInputElement>(`#${id}`) as HTMLInputElement;
  control.value = text;
  control.dispatchEvent(new InputEvent("input", { bubbles: true }));
};
const texts = (selector: string) => [...section().querySelectorAll(selector)].map(({ textContent }) => textContent ?? "");

beforeEach(() => open(log));

it("the section of the offsets shows the sums in force, what they are made of, and the lines", () => {
  expect(sums()).toEqual([
    "G54 X −412.0870 0.0020 measured −412.6070 (first), correction 0.0200 (boss), global shift 0.5000 (dry run)",
    "G54 Y −203.1120 not stated measured (first)",
    "G54 Z – – ",
  ]);
  expect(texts(".told li").join("\n")).toContain("No row measures Z of G54");
  expect(texts("pre")[0]).toContain("G10 L2 P1 X-412.587 Y-203.112");
  // The job and the time, as the page's clock has it.
  expect(texts("pre")[0]).toMatch(/^\(Bearing cover, second side\)\n\(\d{4}-\d\d-\d\dT\d\d:\d\dZ\)\n/);
  expect(texts("pre")[0]).toContain("(G54: a global shift of X0.500 mm is not in these values)");
  // Among what waits for a person.
  expect(document.querySelector(".open-problems")?.textContent).toContain("a global shift is on along X");
});

it("without a log the section says what to do, and shows no empty table", async () => {
  await open([]);
  expect((section().querySelector(".plain") as HTMLElement).hidden).toBe(true);
  expect(texts(".hint")[0]).toContain("Nothing is logged yet");
});

it("“log the zero in use” adds the zero as it is typed, and “restore that state” names an earlier row", async () => {
  enter("offset-who", "CD");
  await press("log the zero in use");
  expect(present.offsets).toHaveLength(4);
  expect(present.offsets[3]).toMatchObject({
    kind: "measured zero",
    register: "G54",
    x: expect.stringMatching(/^-318\.399 ± 0\.00\d\d mm/),
    who: "CD",
  });
  expect(present.offsets[3]?.when).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\dZ$/);
  expect(sums()[0]).toMatch(/^G54 X −317\.8990 /);
  expect(texts(".told li").join("\n")).toContain('corrections before it have ended: X "boss"');
  enter("offset-state", "boss");
  await press("restore that state");
  expect(present.offsets[4]).toMatchObject({ kind: "restore", restores: "boss" });
  expect(sums()[0]).toBe("G54 X −412.5870 0.0020 measured −412.6070 (first), correction 0.0200 (boss)");
  sheet.undo();
  await settled();
  expect(present.offsets).toHaveLength(4);
});

it("text that is read back is compared and changes nothing; what is not understood is refused at its place", async () => {
  const before = present;
  enter("offset-text", "G54 X-412.587 Y203.112");
  // What reads it comes with the first text.
  await vi.waitFor(() => expect(texts(".agreement")[0]).not.toBe(""));
  expect(texts(".agreement")[0]).toBe("1 value agrees with the table; 1 value differs. Read in millimetres, as the controller shows.");
  expect(texts(".told li")).toContain("G54 Y: the table has -203.112, the text 203.112; +406.2240 mm: the other sign.");
  enter("offset-text", "G21 G91\nG10 L2 P1 X1.0");
  expect(texts(".agreement")[0]).toBe("Nothing of it was taken.");
  expect(texts(".told li").join("\n")).toContain("line 1, character 5: with G91");
  expect(present).toBe(before);
});

it("a zero moved to another point is told with its doubt and logged, and a name that nothing has is asked about", async () => {
  enter("offset-places", "X=left, Y=front");
  expect(texts(".told li").join("\n")).toMatch(/X -398\.42\d\d mm \(u 0\.003\d; before 0\.003\d\), -80\.02\d\d from the old zero/);
  const select = document.querySelector<HTMLSelectElement>("#offset-moved-register") as HTMLSelectElement;
  expect(select.value).toBe("G54");
  select.value = "G55";
  select.dispatchEvent(new Event("change", { bubbles: true }));
  await press("log the moved zero");
  expect(select.value).toBe("G55");
  expect(present.offsets.at(-1)).toMatchObject({
    kind: "measured zero",
    register: "G55",
    x: expect.stringMatching(/^-398\.42\d ± 0\.00\d+ mm/),
    why: 'zero by "bore, turned to front" moved to X=left, Y=front without touching again',
  });
  expect(texts("pre")[0]).toMatch(/G10 L2 P2 X-398\.42\d /);
  sheet.undo();
  await settled();
  enter("offset-places", "X=lift");
  expect(texts(".told li").join("\n")).toContain("no element by this name with a place along X");
});

it("a row that stands takes no edit and says why; the last one does", async () => {
  const cell = (row: number, column: string) =>
    section().querySelectorAll(`tr[data-row] [data-column="${column}"] [data-cell]`)[row] as HTMLInputElement;
  const type = (control: HTMLInputElement, text: string) => {
    control.focus();
    control.value = text;
    control.dispatchEvent(new InputEvent("input", { bubbles: true }));
  };
  type(cell(0, "x"), "-400");
  expect(present.offsets[0]?.x).toBe("-412.607 mm ± 0.002 mm");
  expect(section().textContent).toContain("This row stands: log what changes in a new row.");
  cell(0, "x").blur();
  const done = settled();
  type(cell(2, "x"), "0");
  await done;
  expect(present.offsets[2]?.x).toBe("0");
  expect(sums()[0]).toMatch(/^G54 X −412\.5870 /);
});

it("onlyAdded(before, after, isOpen) keeps rows that stand in their place, and puts new ones behind", () => {
  const [first, boss, dry] = log as [(typeof log)[0], (typeof log)[1], (typeof log)[2]];
  const isOpen = (row: object) => row === dry;
  const added = blankEntries.offset("new");
  expect(onlyAdded(log, [boss, dry], isOpen)).toBe(log);
  expect(onlyAdded(log, [dry, boss, first], isOpen)).toBe(log);
  expect(onlyAdded(log, [added, first, boss, dry], isOpen)).toEqual([first, boss, dry, added]);
  expect(onlyAdded(log, [first, boss], isOpen)).toEqual([first, boss]);
  const isRefused = (wanted: typeof log) => leavesStanding(log, wanted, onlyAdded(log, wanted, isOpen));
  expect([[boss, dry], [dry, boss, first], [first]].map(isRefused)).toEqual([true, true, true]);
  expect(
    [
      [added, first, boss, dry],
      [first, boss],
    ].map(isRefused),
  ).toEqual([false, false]);
});

it("a grid of nests is added as one step, judged by what was found, and a shift is logged for one of them or for all", async () => {
  enter("nest-columns", "3");
  enter("nest-rows", "1");
  pressNow("add these nests");
  expect(texts(".reason").join()).toContain("from one nest to the next along X is missing");
  expect(present.nests).toEqual([]);
  enter("nest-pitch-x", "60");
  await press("add these nests");
  expect(present.nests.map(({ id, x, y }) => [id, x, y])).toEqual([
    ["nest 1", "0", "0"],
    ["nest 2", "60", "0"],
    ["nest 3", "2 * (60)", "0"],
  ]);
  expect(texts(".told li").join("\n")).toContain("No nest was found yet");

  // By hand: found 0.003 mm further along X in the mean, with 0.006/√3 mm; nest 3 is off by 0.009 - 0.003.
  const found = ["0 ± 0.006", "60 ± 0.006", "120.009 ± 0.006"].map((foundX, i) => ({
    ...(present.nests[i] as SetupDocument["nests"][number]),
    foundX,
    foundY: "0 ± 0.006",
  }));
  const done = settled();
  sheet.open({ ...present, nests: found }, "found places");
  await done;
  expect(texts(".told li").join("\n")).toContain(
    "One zero for all nests, shifted alone: X 0.0030 mm (u 0.0035), Y 0.0000 mm (u 0.0035) from the first nest's. “nest 3” is then off most, by 0.0060 mm.",
  );
  const choice = document.querySelector<HTMLSelectElement>("#nest-shift") as HTMLSelectElement;
  choice.value = "nest 3";
  await press("log it");
  expect(present.offsets.at(-1)).toMatchObject({
    kind: "local shift",
    nest: "nest 3",
    x: "120.009 ± 0.006",
    y: "0 ± 0.006",
    why: "as found",
  });
  choice.value = "shifted";
  await press("log it");
  expect(present.offsets.at(-1)).toMatchObject({ kind: "local shift", nest: "all nests, shifted", x: "0.0030 ± 0.0035 mm" });
  expect(sums()[0]).toContain("local shift 0.0030");
  // Found square to each other: the turn is 0 by hand, with u = 0.006·√2 over 120 mm, in degrees 0.004; typed over here so that it is none.
  choice.value = "turned";
  await press("log it");
  const turned = {
    ...present,
    offsets: present.offsets.map((row, i) => (i === log.length + 2 ? { ...row, z: "0.5", turn: "0.02 deg" } : row)),
  };
  const reopened = settled();
  sheet.open(turned, "a turn that is none");
  await reopened;
  for (const [which, shift] of [
    ["nest 3", "120.009 ± 0.006"],
    ["shifted", "0.0030 ± 0.0035 mm"],
  ] as const) {
    choice.value = which;
    await press("log it");
    expect(present.offsets.at(-1)).toMatchObject({ kind: "local shift", x: shift, z: "0", turn: "0" });
    expect(sums().join("\n")).not.toContain("turn");
    const told = /It takes the place of .* and turn 0\.0200 deg \(“shift \d”\)\. Z and turn of it are ended by 0\./u;
    expect(told.test(sheet.element.textContent ?? "")).toBe(true);
    const back = settled();
    sheet.undo();
    await back;
  }
  for (let i = 0; i < 4; i += 1) sheet.undo();
  expect(present.offsets).toHaveLength(log.length);
});

it("a grid by a measured pitch and a turn puts what its nests share into the ledger", async () => {
  for (const [id, text] of [
    ["nest-columns", "2"],
    ["nest-rows", "1"],
    ["nest-pitch-x", "60 mm ± 0.004 mm"],
    ["nest-turn", "0.1 deg ± 0.01 deg"],
  ] as const)
    enter(id, text);
  const ledger = present.ledger.length;
  await press("add these nests");
  expect(present.ledger.slice(ledger)).toMatchObject([
    { kind: "cell", id: "nest_pitch_X", entry: "60 mm ± 0.004 mm" },
    { kind: "cell", id: "nest_turn", entry: "0.1 deg ± 0.01 deg" },
  ]);
  expect(present.nests[1]).toMatchObject({ x: "estimate(nest_pitch_X)", foundX: "nest_pitch_X * cos(nest_turn)" });
  expect(texts(".told li").join("\n")).toMatch(/and a turn of 0\.10+° \(u 0\.010\d*°\)/);
  sheet.undo();
  await settled();
  expect([present.nests.length, present.ledger.length]).toEqual([0, ledger]);
});

it("tells where everything lies after the part is turned over, and what new doubt that brings", () => {
  const told = () => document.querySelector("#turned-about")?.closest(".offsets") as HTMLElement;
  const line = (element: string) =>
    [...told().querySelectorAll("tbody tr")]
      .map((row) => [...row.children].map(({ textContent }) => textContent))
      .find(([name]) => name === element);
  expect(told().querySelector<HTMLElement>(".plain")?.hidden).toBe(true);
  enter("turned-about", "X");
  expect(told().textContent).toContain("Turned about X: Y and Z change their sign, Y from the same face, Z from the same face.");
  // Zero sits in the bore; by hand, from the drawing: the right face is where it was along X.
  const [before] = [line("right")];
  // Zero is at the top: the part lies below it, and the face that is up then was at the bottom. z' = -30 - z.
  enter("turned-across", "Z = -30 mm ± 0.01 mm");
  expect(told().textContent).toContain("Z from the opposite face, which was at -30.0000 mm");
  expect(line("right")).toEqual(before);
  expect(line("top")?.slice(5)).toEqual(["-30.000", "0.010"]);
  enter("turned-across", "Z = 30 mm ± 0.01 mm");
  expect(told().textContent).toMatch(/Along Z the part lies at the negative side of its zero.*with its sign: negative\.(?!\.)/);
  expect(told().querySelector<HTMLElement>(".plain")?.hidden).toBe(true);
  enter("turned-across", "X = 30 mm");
  expect(told().textContent).toContain("Nothing changes along X, about which the part is turned");
  expect(told().querySelector<HTMLElement>(".plain")?.hidden).toBe(true);
});
