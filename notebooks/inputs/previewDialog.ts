import { html, setText } from "./html.ts";

export interface PreviewOptions {
  readonly heading: string;
  readonly content: readonly Node[];
  /** Asked for by Enter or the button; the dialog stays open until it is ended. */
  readonly onTake: () => void;
  /** Escape, or the other button: the dialog has gone by then. */
  readonly onRefuse: () => void;
  /** What it is about: the dialog opens beside the same sheet; in the page itself where left out. */
  readonly near?: Element;
}

export interface OpenPreview {
  readonly dialog: HTMLDialogElement;
  /** The button that takes. */
  readonly take: HTMLButtonElement;
  /** What must be said before it can be taken; empty for nothing. */
  ask(words: string): void;
  end(): void;
}

/** Shows what would be taken, in a dialog of the page, and changes nothing: Enter takes it, Escape refuses it. */
export function openPreview({ heading, content, onTake, onRefuse, near }: PreviewOptions): OpenPreview {
  const take = html("button", { type: "submit", class: "act strong" }, "take it");
  const refuse = html("button", { type: "button", class: "act" }, "leave it");
  const open = html("span", { class: "wrong", role: "alert" });
  const form = html(
    "form",
    { method: "dialog" },
    html("h2", { id: "paste-preview-title" }, heading),
    ...content,
    html("p", { class: "acts" }, open, refuse, take),
  );
  const dialog = html("dialog", { class: "paste-preview", "aria-labelledby": "paste-preview-title" }, form);
  const end = () => {
    dialog.close();
    dialog.remove();
  };
  const leave = () => {
    end();
    onRefuse();
  };
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    onTake();
  });
  // Enter takes it wherever one stands in the dialog, but on the button that refuses it.
  dialog.addEventListener("keydown", (event) => {
    event.stopPropagation();
    if (event.key !== "Enter" || event.isComposing || event.target === refuse || event.target === take) return;
    event.preventDefault();
    form.requestSubmit();
  });
  refuse.addEventListener("click", leave);
  dialog.addEventListener("cancel", (event) => {
    event.preventDefault();
    leave();
  });
  (near?.closest(".sheet")?.parentElement ?? document.body).append(dialog);
  dialog.showModal();
  return { dialog, take, ask: (words) => setText(open, words), end };
}
