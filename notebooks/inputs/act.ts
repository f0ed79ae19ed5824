import { html } from "./html.ts";

/** A button of the sheet: words that do something. */
export function act(words: string, onClick: () => void): HTMLButtonElement {
  const button = html("button", { type: "button", class: "act" }, words);
  button.addEventListener("click", onClick);
  return button;
}
