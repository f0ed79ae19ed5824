import { expect, it } from "vitest";
import { success } from "../../../lib/base/outcome.ts";
import { parseLength } from "../../../lib/formula/parseQuantity.ts";
import { EntryField } from "../../../notebooks/inputs/entryField.ts";

function openField(onEdit: (text: string) => string | undefined = () => undefined) {
  const typed: string[] = [];
  const field = new EntryField({
    place: "machine.offsetStep",
    label: "offset step",
    width: 8,
    understand: (text) => {
      const parsed = parseLength(text, { unit: "mm" });
      return parsed.ok ? success(parsed.value.understoodAs) : parsed;
    },
    onEdit: (text) => {
      typed.push(text);
      const refusal = onEdit(text);
      if (refusal === undefined) field.show(text);
      return refusal;
    },
    onAbandon: () => {},
  });
  document.body.replaceChildren(field.element);
  const control = field.element.querySelector("input") as HTMLInputElement;
  const words = () => field.element.querySelector("small")?.textContent;
  const type = (text: string) => {
    control.value = text;
    control.dispatchEvent(new InputEvent("input", { bubbles: true }));
  };
  return { field, control, words, type, typed };
}

it("an entry field says how a formula was understood", () => {
  const { field, words } = openField();
  field.show("6 mm / 2");
  expect(words()).toContain("3 mm");
  field.show("2.5 in");
  expect(words()).toBe("2.5 in = 63.5 mm");
});

it("an entry field hands on every text, also one that cannot be read, and shows what is wrong", () => {
  const { field, control, words, type, typed } = openField();
  control.focus();
  type("0.0x");
  expect(typed).toEqual(["0.0x"]);
  field.showProblems([{ at: "machine.offsetStep", what: "it is not a number", remedy: "correct it" }]);
  expect(words()).toBe("it is not a number. Correct it.");
  expect(control.getAttribute("aria-invalid")).toBe("true");
  expect(control.getAttribute("aria-describedby")).toBe("machine-offsetStep-words");
  field.showProblems([]);
  expect(control.hasAttribute("aria-invalid")).toBe(false);
});

it("an entry field returns to what the document holds when that cannot hold the text", () => {
  const { field, control, words, type } = openField(() => "it cannot be entered here");
  field.show("0.001");
  control.focus();
  type("many");
  expect(words()).toBe("it cannot be entered here");
  control.blur();
  expect(control.value).toBe("0.001");
  expect(words()).toBe("0.001 mm");
});

it("an entry field has its label for a name", () => {
  const { control } = openField();
  expect(control.labels?.[0]?.textContent).toBe("offset step");
});
