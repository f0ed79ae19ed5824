import { html, setText } from "./html.ts";

/** Sentences as paragraphs. */
export function paragraphs(sentences: readonly string[]): HTMLElement[] {
  return sentences.map((sentence) => {
    const paragraph = html("p");
    setText(paragraph, sentence);
    return paragraph;
  });
}
