import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { EntryCell } from "../../../notebooks/inputs/entryCell.ts";
import { NameCompletion } from "../../../notebooks/inputs/nameCompletion.ts";

let root: HTMLElement;
let cell: EntryCell;
let edits: string[];
let abandoned: number;

function open(kind: "text" | "long"): void {
  root = document.createElement("main");
  document.body.replaceChildren(root);
  edits = [];
  abandoned = 0;
  cell = new EntryCell({
    kind,
    label: "wall, entry",
    width: 20,
    formula: { uses: "everything" },
    onEdit: (text) => edits.push(text),
    onAbandon: () => {
      abandoned += 1;
    },
  });
  root.append(cell.control);
  const offers = ["left_face", "left_wall", "length", "mean"].map((name) => ({
    name,
    about: () => `about ${name}`,
    ...(name === "mean" && { closing: "()" }),
  }));
  new NameCompletion(root, (_, kind) => (kind === "unit" ? [] : offers));
  cell.control.focus();
}

const control = () => cell.control as HTMLInputElement;
const type = (text: string) => {
  control().value = text;
  control().setSelectionRange(text.length, text.length);
  control().dispatchEvent(new InputEvent("input", { bubbles: true }));
};
const press = (key: string, more: KeyboardEventInit = {}) => {
  const event = new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true, ...more });
  control().dispatchEvent(event);
  return event;
};
const box = () => root.querySelector<HTMLElement>(".names-that-fit") as HTMLElement;
const shown = () => (box().hidden ? undefined : [...box().querySelectorAll("[role=option] span")].map(({ textContent }) => textContent));
const active = () => document.getElementById(control().getAttribute("aria-activedescendant") ?? "")?.querySelector("span")?.textContent;
/** A person hesitates. */
const hesitate = () => vi.advanceTimersByTime(1000);

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

describe("names that fit, beneath an entry", () => {
  beforeEach(() => open("long"));

  it("come when a person hesitates, and go when nothing fits any more", () => {
    type("le");
    expect(shown()).toBeUndefined();
    hesitate();
    expect(shown()).toEqual(["left_face", "left_wall", "length"]);
    type("left");
    expect(shown()).toEqual(["left_face", "left_wall"]);
    type("left_face - ");
    expect(shown()).toBeUndefined();
  });

  it("leave every key to the entry until a person goes into the list", () => {
    type("le");
    hesitate();
    expect(press("Enter").defaultPrevented).toBe(true);
    expect(edits).toEqual(["le"]);
    expect(shown()).toBeUndefined();
    expect(cell.isEdited).toBe(false);
  });

  it("are gone into with the arrow keys, taken with Enter, and the word alone is replaced", () => {
    type("2 * le");
    hesitate();
    press("ArrowDown");
    expect(active()).toBe("left_face");
    press("ArrowDown");
    press("ArrowDown");
    expect(active()).toBe("length");
    press("ArrowDown");
    expect(control().hasAttribute("aria-activedescendant")).toBe(false);
    press("ArrowUp");
    press("Enter");
    expect(control().value).toBe("2 * length");
    expect(edits.at(-1)).toBe("2 * length");
    expect(cell.isEdited).toBe(true);
    hesitate();
    expect(shown()).toBeUndefined();
  });

  it("are put away by Escape, which leaves the text, and do not come back for the same word; a second Escape leaves the entry as it was", () => {
    type("le");
    hesitate();
    press("Escape");
    expect(shown()).toBeUndefined();
    expect(abandoned).toBe(0);
    type("left");
    hesitate();
    expect(shown()).toBeUndefined();
    type("left + le");
    hesitate();
    expect(shown()).toEqual(["left_face", "left_wall", "length"]);
    press("Escape");
    press("Escape");
    expect(abandoned).toBe(1);
  });

  it("are asked for with Ctrl and the space bar, also before anything is typed", () => {
    press("F2");
    press(" ", { ctrlKey: true });
    expect(shown()).toEqual(["left_face", "left_wall", "length", "mean"]);
  });

  it("close what they open: behind a function stands a bracket, with the caret in it", () => {
    type("me");
    hesitate();
    press("ArrowDown");
    press("Enter");
    expect([control().value, control().selectionStart]).toEqual(["mean()", 5]);
  });

  it("never come up in a number or behind one without a unit that fits", () => {
    type("12.5");
    hesitate();
    expect(shown()).toBeUndefined();
  });
});

// ARIA 1.2, combobox with a listbox popup; a text of several lines has no such role (ARIA in HTML).
it("a line of text is a combobox that tells what is open and what is active; a text of several lines points at its list", () => {
  open("text");
  expect(control().getAttribute("role")).toBe("combobox");
  expect(control().getAttribute("aria-expanded")).toBe("false");
  type("le");
  hesitate();
  expect(control().getAttribute("aria-expanded")).toBe("true");
  expect(document.getElementById(control().getAttribute("aria-controls") ?? "")?.getAttribute("role")).toBe("listbox");
  press("ArrowDown");
  expect(root.querySelector('[aria-selected="true"]')?.id).toBe(control().getAttribute("aria-activedescendant"));
  press("Escape");
  expect(control().getAttribute("aria-expanded")).toBe("false");
  expect(control().hasAttribute("aria-controls")).toBe(false);
  open("long");
  expect(control().hasAttribute("role")).toBe(false);
  expect(control().getAttribute("aria-autocomplete")).toBe("list");
});
