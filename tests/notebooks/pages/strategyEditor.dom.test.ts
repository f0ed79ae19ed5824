import { beforeEach, expect, it } from "vitest";
import { lookupQuantities } from "../../../lib/decision/setupQuantities.ts";
import { strategyNamed } from "../../../lib/decision/strategyNamed.ts";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../../lib/evaluateSetup.ts";
import { StrategyEditor } from "../../../notebooks/pages/strategyEditor.ts";
import { toggled } from "../../../notebooks/pages/strategyEntries.ts";
import { cover } from "../../gallery/documents.ts";

let editor: StrategyEditor;
let kept: SetupDocument;
let steps: string[];

function show(document: SetupDocument): void {
  kept = document;
  const evaluation = evaluateSetup(document);
  const { problems } = evaluation;
  const chosen = strategyNamed(evaluation.strategies, document.chosen);
  const quantities = lookupQuantities(new Map());
  editor.show(
    {
      evaluation,
      operated: undefined,
      chosen,
      results: [],
      own: new Map(),
      unnamed: [],
      quantities,
      related: [],
      problems,
      view: "thisPart",
    },
    document,
  );
}

beforeEach(() => {
  steps = [];
  editor = new StrategyEditor({
    edit: (change, what) => {
      steps.push(what);
      show(change(kept));
    },
    say: () => {},
    choose: (strategy) => show({ ...kept, chosen: strategy }),
  });
  document.body.replaceChildren(editor.element);
  show({ ...cover, chosen: "corner" });
});

const box = (words: string) =>
  [...editor.element.querySelectorAll<HTMLInputElement>("input")].find(
    ({ parentElement }) => parentElement?.textContent?.startsWith(words) === true,
  ) as HTMLInputElement;
const tick = (words: string) => box(words).click();
const told = () => [...editor.element.querySelectorAll(".told-of p")].map(({ textContent }) => textContent);
const wrong = () => [...editor.element.querySelectorAll(".wrong-of li")].map(({ textContent }) => textContent);
const rowOf = (id: string) => kept.strategies.find((strategy) => strategy.id === id);
const button = (words: string) =>
  [...editor.element.querySelectorAll("button")].find(({ textContent }) => textContent === words) as HTMLButtonElement;

it("shows the strategy in use: what is ticked, what each touch is there for, and what comes of it", () => {
  expect(box("left +X").checked).toBe(true);
  expect(box("b1 +X").checked).toBe(false);
  expect(box("top −Z").parentElement?.querySelector("small")?.textContent).toBe("needed: without it a shift along Z is free");
  expect(told()[0]).toBe('Corner of "left" and "front", height from "top", skew measured and applied by "front".');
  expect(told()).toContain("All of its touches are needed: nothing would show a mistake in one.");
});

it("takes a touch out and tells at once what is free and which touch would help", () => {
  tick("left +X");
  expect(rowOf("corner")?.touches).toEqual(["front 1", "front 2", "top"]);
  expect(steps).toEqual(["touches of corner"]);
  expect(told().join(" ")).toContain("Free: a shift nearly along X.");
  expect(wrong()[0]).toContain("No touch pushes along X, so nothing fixes it");
  expect(wrong()[0]).toContain('"left" and "right" would');
  tick("left +X");
  // At the place that the list of touches gives it, as it was.
  expect(rowOf("corner")?.touches).toEqual(["left", "front 1", "front 2", "top"]);
});

it("ticks all touches of an element at once, and shows when only some are in", () => {
  const bore = box("bore");
  bore.click();
  expect(rowOf("corner")?.touches.slice(0, 4)).toEqual(["b1", "b2", "b3", "b4"]);
  expect(bore.checked).toBe(true);
  tick("b3 +Y");
  expect(bore.indeterminate).toBe(true);
  bore.click();
  bore.click();
  expect(rowOf("corner")?.touches.some((touch) => touch.startsWith("b"))).toBe(false);
});

it("says that a length that touches tell must not be held, and that holding the middle mends it", () => {
  tick("right −X");
  expect(wrong().join(" ")).toContain('Over-determined: the touches tell "length"');
  tick("middle");
  expect(rowOf("corner")?.hold).toEqual(["middle"]);
  expect(wrong()).toEqual([]);
});

it("changes how the skew is taken, and lets a face only turn the part where the skew is looked at", () => {
  const turns = box("only turns the part");
  expect(turns.disabled).toBe(false);
  tick("not looked at");
  expect(rowOf("corner")?.rotation).toBe("ignored");
  expect(turns.disabled).toBe(true);
});

it("shows at a touch why it cannot be used: here it cannot lie on the named face", () => {
  const touches = kept.touches.map((touch) => (touch.id === "left" ? { ...touch, travelling: "-X" as const } : touch));
  show({ ...kept, touches });
  const words = box("left −X").parentElement?.querySelector("small");
  expect(words?.textContent).toContain('A tool travelling -X cannot touch "left", whose metal lies on the + X side of it');
  expect(words?.dataset["tone"]).toBe("bad");
  expect(told()).toEqual(["Nothing can be told of it, for what is said here."]);
});

it("goes from box to box and from element to element by the arrow keys", () => {
  const press = (key: string) => document.activeElement?.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true }));
  box("bore").focus();
  press("ArrowDown");
  expect(document.activeElement).toBe(box("b1 +X"));
  press("ArrowRight");
  expect(document.activeElement).toBe(box("front"));
  press("ArrowLeft");
  expect(document.activeElement).toBe(box("bore"));
  press("ArrowUp");
  expect(document.activeElement).toBe(box("top −Z"));
});

it("duplicates a strategy, and shows the new one", () => {
  button("duplicate").click();
  button("duplicate").click();
  expect(kept.strategies.slice(-2).map(({ id }) => id)).toEqual(["copy of corner", "copy of copy of corner"]);
  expect(rowOf("copy of corner")).toMatchObject({ touches: rowOf("corner")?.touches, zero: rowOf("corner")?.zero });
  expect(editor.element.querySelector("select")?.value).toBe("copy of copy of corner");
  expect(kept.chosen).toBe("corner");
});

it("offers the usual strategies of the touches, found by their words", () => {
  const details = editor.element.querySelector("details") as HTMLDetailsElement;
  details.open = true;
  details.dispatchEvent(new Event("toggle"));
  const filter = details.querySelector("input") as HTMLInputElement;
  filter.value = "middle front top";
  filter.dispatchEvent(new Event("input"));
  const offered = [...details.querySelectorAll("li")];
  expect(offered.length).toBeGreaterThan(1);
  for (const { textContent } of offered) for (const word of ["middle", "front", "top"]) expect(textContent).toContain(word);
  offered[0]?.querySelector("button")?.click();
  expect(kept.strategies.at(-1)?.id).toBe(offered[0]?.querySelector("span")?.textContent);
  expect(kept.strategies.at(-1)?.hold).toEqual(["middle"]);
  expect(kept.strategies.at(-1)?.zero).toEqual(rowOf("corner")?.zero);
});

it("is of use where there is no strategy yet", () => {
  show({ ...cover, strategies: [], chosen: "" });
  expect(told()).toEqual(["There is no strategy yet: make one from the touches, below."]);
  expect(box("left +X").disabled).toBe(true);
});

it("toggled(names, changed, isIn, order) leaves an order that a person chose", () => {
  const order = ["a", "b", "c", "d"];
  expect(toggled(["a", "d"], ["b"], true, order)).toEqual(["a", "b", "d"]);
  expect(toggled(["d", "a"], ["b"], true, order)).toEqual(["d", "a", "b"]);
  expect(toggled(["a", "gone"], ["b"], true, order)).toEqual(["a", "gone", "b"]);
  expect(toggled(["a", "b"], ["b"], false, order)).toEqual(["a"]);
});
