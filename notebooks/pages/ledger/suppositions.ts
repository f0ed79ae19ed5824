import { readWhatIf } from "../../../lib/document/readWhatIf.ts";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { changeRow } from "../../inputs/rows.ts";

type Supposing = Pick<SetupDocument, "ledger" | "whatIf">;

/** What is only supposed for the moment, each in words. */
export function suppositionsInWords({ ledger, whatIf }: Supposing): string[] {
  const entries: string[] = [];
  for (const block of ledger) {
    if (block.kind === "cell" && block.instead.trim() !== "") entries.push(`${block.id} is ${block.instead.trim()}`);
  }
  const sources = [...readWhatIf({ whatIf })].map(([source, { shift, doubt }]) => {
    const parts = [
      ...(shift === 0 ? [] : [`shifted by ${signed(shift)} u`]),
      ...(doubt === 1 ? [] : [`${written(doubt)} times as doubtful`]),
    ];
    return `“${source}” ${parts.join(" and ")}`;
  });
  return [...entries, ...sources];
}

/** The document without any supposition; the document itself where there is none. */
export function asStated<D extends Supposing>(document: D): D {
  const isOverridden = document.ledger.some((block) => block.kind === "cell" && block.instead !== "");
  const ledger = isOverridden
    ? document.ledger.map((block) => (block.kind === "cell" && block.instead !== "" ? changeRow(block, { instead: "" }) : block))
    : document.ledger;
  return ledger === document.ledger && document.whatIf.length === 0 ? document : { ...document, ledger, whatIf: [] };
}

function signed(value: number): string {
  return value < 0 ? `−${written(-value)}` : `+${written(value)}`;
}

function written(value: number): string {
  return String(Number(value.toPrecision(6)));
}
