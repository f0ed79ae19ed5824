const longestTold = 60;
/** What two texts have in common is told up to so many characters before they part. */
const lead = 20;

/** A typed text as a sentence has it: on one line, cut where it is long. */
export function quoted(text: string): string {
  return cut(onOneLine(text), 0);
}

/** `from "a" to "b"`: of long texts that begin alike, the place where they part. */
export function fromTo(was: string, is: string): string {
  const [a, b] = [onOneLine(was), onOneLine(is)];
  const common = beginningInCommon(a, b);
  const start = Math.max(a.length, b.length) > longestTold && common > lead ? common - lead : 0;
  return `from ${cut(a, start)} to ${cut(b, start)}`;
}

function onOneLine(text: string): string {
  return text.replace(/\s+/g, " ");
}

function cut(line: string, start: number): string {
  if (line === "") return "nothing";
  const end = start + longestTold;
  return `"${start > 0 ? "…" : ""}${line.slice(start, end)}${line.length > end ? "…" : ""}"`;
}

function beginningInCommon(a: string, b: string): number {
  let end = 0;
  while (end < a.length && a[end] === b[end]) end++;
  return end;
}
