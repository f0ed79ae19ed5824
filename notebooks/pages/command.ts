import { html } from "../inputs/html.ts";

/** A command at the head of the sheet. */
export function command(name: string, act: () => void, shortcut?: string): HTMLButtonElement {
  const button = html("button", { type: "button", class: "command", "aria-keyshortcuts": shortcut }, name);
  button.addEventListener("click", act);
  return button;
}
