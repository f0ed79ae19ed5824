import { beforeEach, describe, expect, it } from "vitest";
import { type Findable, findIn } from "../../../notebooks/pages/findIn.ts";
import { demoDocument } from "../../../notebooks/pages/firstJob.ts";
import { Sheet } from "../../../notebooks/pages/sheet.ts";

const nowhere = () => undefined;
const findable = (name: string, label: string, text: string, more: Partial<Findable> = {}): Findable => ({
  section: "touches",
  name,
  label,
  isPart: label !== "",
  text: () => text,
  isSought: true,
  goTo: nowhere,
  ...more,
});
const told = (found: readonly Findable[]) => found.map(({ name, label }) => [name, label].filter((each) => each !== "").join(", "));

describe("findIn(sought, all)", () => {
  const all = [
    findable("front left", "", "touch"),
    findable("left 2", "", "touch"),
    findable("left 2", "readings", "−401.457"),
    findable("left", "", "touch"),
    findable("left", "readings", "-290.388 -290.389"),
    findable("top", "face", "left"),
    findable("wall", "what is left of the casting", "x"),
  ];

  it("puts the name itself first, then names that begin so, names that hold it, labels, and what is shown", () => {
    expect(told(findIn("left", all))).toEqual(["left", "left 2", "front left", "wall, what is left of the casting", "top, face"]);
  });

  it("takes words in any order from name, label and value together", () => {
    expect(told(findIn("READINGS  left 2 -401", all))).toEqual(["left 2, readings"]);
    expect(told(findIn("left 290.388", all))).toEqual(["left, readings"]);
  });

  it("takes a minus however it was typed", () => {
    expect(told(findIn("-401.457", all))).toEqual(["left 2, readings"]);
    expect(told(findIn("−290.389", all))).toEqual(["left, readings"]);
  });

  it("finds nothing for nothing, and works out nothing that is not to be sought by what it shows", () => {
    expect(findIn("  ", all)).toEqual([]);
    const costly = findable("zero_X", "zero along X", "", {
      isPart: false,
      isSought: false,
      text: () => {
        throw new Error("worked out in vain");
      },
    });
    expect(findIn("-318", [costly])).toEqual([]);
    expect(told(findIn("ZERO_x along", [costly]))).toEqual(["zero_X, zero along X"]);
  });
});

describe("the line in which places of the sheet are found", () => {
  let sheet: Sheet;
  beforeEach(async () => {
    sheet = new Sheet(demoDocument(), { onDocument: nowhere, commands: document.createElement("nav") });
    document.body.replaceChildren(sheet.element);
    await new Promise((resolve) => sheet.element.addEventListener("settled", resolve, { once: true }));
  });

  const field = () => document.querySelector<HTMLInputElement>("input.finder") as HTMLInputElement;
  const items = () => [...document.querySelectorAll(".found-places li")];
  const listed = () => items().map((item) => [...item.children].map(({ textContent }) => textContent));
  const press = (key: string, on: Element = field()) =>
    on.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
  const seek = (words: string) => {
    field().value = words;
    field().dispatchEvent(new InputEvent("input", { bubbles: true }));
  };
  const labelOfFocused = () => document.activeElement?.getAttribute("aria-label");

  // Names, labels and readings as they stand in the file of the demo job.
  it.each([
    ["a row by its name", "front 1", ["1", "front 1", "", "touch"], "front 1, name"],
    ["an entry by row and label", "tool 7 length", ["13", "tool 7", "length", "112.346"], "tool 7, length"],
    ["an entry by what it holds", "-234.916", ["1", "front 1", "readings", "-234.909 -234.916 -234.911"], "front 1, readings"],
    ["an entry of a row's hidden column", "b1 total x", ["1", "b1", "total X", ""], "b1, total X"],
  ])("finds %s and goes there", (_, words, first, focused) => {
    seek(words);
    expect(listed()[0]).toEqual(first);
    press("Enter");
    expect(labelOfFocused()).toBe(focused);
    expect(field().value).toBe("");
    expect(items()).toEqual([]);
  });

  it("finds an entry that stands by itself, a cell by its note, a section, and results", () => {
    seek("positioning error");
    expect(listed()[0]).toEqual(["14", "positioning error", "", "0.006"]);
    press("Enter");
    expect(document.activeElement?.id).toBe("machine-positioning");
    seek("thinnest metal");
    expect(listed()[0]?.slice(0, 3)).toEqual(["9", "wall_at_left", "thinnest metal between bore and left face"]);
    expect(listed()[0]?.[3]).toMatch(/^b2_face - left_face = \d+\.\d+/);
    press("Enter");
    expect(document.activeElement?.closest("section")?.id).toBe("ledger");
    seek("warming up");
    expect(listed()[0]).toEqual(["15", "Warming up", "", "section"]);
    // As the title block has it.
    const zero = document.querySelector(".title-block .zero b")?.textContent;
    seek("zero_X");
    expect(listed()[0]?.slice(0, 2)).toEqual(["4", "zero_X"]);
    expect(listed()[0]?.[3]).toContain(zero);
    press("Enter");
    expect(document.activeElement?.closest("section")?.id).toBe("zero");
  });

  it("is opened by F8 from an entry, chosen from by the arrow keys, and left by Escape to where one was", () => {
    const scatter = document.querySelector<HTMLInputElement>('[aria-label="probe, radius"]') as HTMLInputElement;
    scatter.focus();
    press("F8", scatter);
    expect(document.activeElement).toBe(field());
    seek("hole");
    expect(field().getAttribute("aria-expanded")).toBe("true");
    expect(document.getElementById(field().getAttribute("aria-activedescendant") ?? "")).toBe(items()[0]);
    press("ArrowDown");
    press("ArrowDown");
    press("ArrowUp");
    expect(
      items()
        .map((item) => item.getAttribute("aria-selected"))
        .slice(0, 3),
    ).toEqual(["false", "true", "false"]);
    expect(field().getAttribute("aria-activedescendant")).toBe(items()[1]?.id);
    press("ArrowUp");
    press("ArrowUp");
    expect(items().at(-1)?.getAttribute("aria-selected")).toBe("true");
    press("Escape");
    expect(document.activeElement).toBe(scatter);
    expect(items()).toEqual([]);
  });

  it("follows an edit with what it lists: no old number stays", async () => {
    const zero = () => document.querySelector(".title-block .zero b")?.textContent;
    seek("zero_X");
    const before = zero();
    expect(listed()[0]?.[3]).toContain(before);
    const reading = document.querySelector<HTMLInputElement>('[aria-label="b1, readings"]') as HTMLInputElement;
    reading.value = "-290.288";
    const settled = new Promise((resolve) => sheet.element.addEventListener("settled", resolve, { once: true }));
    reading.dispatchEvent(new InputEvent("input", { bubbles: true }));
    await settled;
    expect(zero()).not.toBe(before);
    expect(listed()[0]?.[3]).toContain(zero());
  });

  it("says so where nothing has the words, and lists nothing of what is hidden", () => {
    seek("no such thing anywhere");
    expect(document.querySelector(".found-places [role='status']")?.textContent).toContain("Nothing here has “no such thing anywhere”");
    seek("vertical mill");
    expect(listed()).toEqual([["14", "machine", "", "vertical mill 2"]]);
    sheet.showSections(new Set(["touches"]));
    seek("vertical mill");
    expect(listed()).toEqual([]);
  });
});
