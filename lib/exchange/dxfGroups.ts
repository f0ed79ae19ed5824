import { failure, type Outcome, success } from "../base/outcome.ts";

/** A group of a DXF file: what the value means, the value, and the line of the file that it stands in. */
export interface DxfGroup {
  readonly code: number;
  readonly value: string;
  readonly line: number;
}

/** The groups of a DXF file in text form, pair by pair; refused where a pair is none, or the file breaks off. */
export function dxfGroups(text: string): Outcome<DxfGroup[]> {
  const lines = text.split(/\r\n|\r|\n/);
  const groups: DxfGroup[] = [];
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const code = (lines[i] as string).trim();
    if (code === "" && lines.slice(i).every((line) => line.trim() === "")) break;
    if (!/^-?\d{1,4}$/.test(code))
      return failure({
        at: `line ${i + 1}`,
        what: "this is no group code",
        expected: "a whole number, as in every second line of a DXF file in text form",
        got: code.slice(0, 80),
      });
    groups.push({ code: Number(code), value: (lines[i + 1] as string).trim(), line: i + 2 });
  }
  const last = groups.at(-1);
  return last?.code === 0 && last.value === "EOF"
    ? success(groups)
    : failure({ at: `line ${lines.length}`, what: "the file breaks off", expected: "0 and EOF at its end", remedy: "export it again" });
}

/** The sections of a file by their names. */
export function dxfSections(groups: readonly DxfGroup[]): Outcome<ReadonlyMap<string, readonly DxfGroup[]>> {
  const sections = new Map<string, readonly DxfGroup[]>();
  for (let i = 0; i < groups.length; i++) {
    const { code, value, line } = groups[i] as DxfGroup;
    if (code !== 0 || value !== "SECTION") continue;
    const name = groups[i + 1];
    let end = i + 1;
    while (end < groups.length && !(groups[end]?.code === 0 && groups[end]?.value === "ENDSEC")) end += 1;
    if (name?.code !== 2 || end === groups.length)
      return failure({ at: `line ${line}`, what: "a section without a name, or without an end" });
    if (sections.has(name.value)) return failure({ at: `line ${name.line}`, what: `section ${name.value} is there twice` });
    sections.set(name.value, groups.slice(i + 2, end));
    i = end;
  }
  return success(sections);
}
