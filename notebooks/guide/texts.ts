import { keys } from "./keys.ts";

const files = import.meta.glob<string>("./*.md", { query: "?raw", import: "default", eager: true });

/** A text of the guide. */
export interface GuideText {
  readonly title: string;
  readonly text: string;
}

/** In the order in which they are offered: by person, then the words and the mathematics. */
const names = ["setter", "manufacturing-engineer", "quality-engineer", "fixture-documenter", "words", "mathematics"] as const;

export const guideTexts: readonly GuideText[] = [
  ...names.map((name) => {
    const text = files[`./${name}.md`] ?? "";
    const [, title = name] = /^# (.+)$/m.exec(text) ?? [];
    return { title, text };
  }),
  { title: "Keys", text: `# Keys\n\n${keys.map((sentence) => `- ${sentence}`).join("\n")}` },
];

/** A place in a text where a word stands. */
export interface Found {
  readonly title: string;
  /** The heading above it. */
  readonly under: string;
  readonly line: string;
}

/** Lines in which all words stand, whole or in part; those of headings and of what is explained come first. */
export function lookUp(words: string, texts: readonly GuideText[] = guideTexts): Found[] {
  const wanted = words
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== "");
  if (wanted.length === 0) return [];
  const found = texts.flatMap(({ title, text }) => {
    let under = "";
    return text.split(/\n(?=\s*(?:- |\d+\. |#))|\n{2,}/).flatMap((line) => {
      const heading = /^#+ (.+)/.exec(line)?.[1];
      if (heading !== undefined) under = heading === title ? "" : heading;
      const plain = line
        .replace(/^\s*(?:- |\d+\. |#+ )/, "")
        .replace(/\s*\n\s*/g, " ")
        .replace(/\*\*|`|(?<!\w)_|_(?!\w)/g, "");
      const lower = plain.toLowerCase();
      return wanted.every((word) => lower.includes(word))
        ? [{ title, under, line: plain, isFirst: lower.startsWith(wanted[0] as string) }]
        : [];
    });
  });
  return found.sort((a, b) => Number(b.isFirst) - Number(a.isFirst)).map(({ title, under, line }) => ({ title, under, line }));
}
