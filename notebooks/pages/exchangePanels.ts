import { capitalise } from "../../lib/base/capitalise.ts";
import { describeProblem } from "../../lib/base/outcome.ts";
import { bringIn, type ExchangeKind, exchangeKinds } from "../../lib/exchange/bringIn.ts";
import { takeLines } from "../../lib/exchange/proposal.ts";
import { type ExchangedTable, exchangedTables } from "../../lib/exchange/resultTables.ts";
import { type ExchangeFormat, exchangeFormats, type TakeOutOptions, takeOut } from "../../lib/exchange/takeOut.ts";
import { act } from "../inputs/act.ts";
import { html, setText } from "../inputs/html.ts";
import { previewProposal } from "./bringInPreview.ts";
import { download, fileNameOf, readExchangeFile } from "./files.ts";
import type { Sheet } from "./sheet.ts";

/** What other programs have written: pasted, or from a file. */
export function bringInForm(sheet: Sheet, leave: () => void): HTMLElement[] {
  const text = html("textarea", {
    id: "bring-in-text",
    class: "read-back",
    rows: 4,
    spellcheck: "false",
    autocomplete: "off",
    placeholder: "left X -401.460 Y -170.000",
  });
  const kinds = Object.entries(exchangeKinds).map(([value, words]) => html("option", { value }, words));
  const kind = html("select", { "aria-label": "What the text is" }, html("option", { value: "" }, "find out what it is"), ...kinds);
  const file = html("input", { type: "file", class: "unseen", tabindex: -1, "aria-label": "File to bring in" });
  const reason = html("p", { class: "wrong", role: "alert" });
  const lookAt = (brought: string) => {
    setText(reason, look(sheet, brought, kind.value === "" ? undefined : (kind.value as ExchangeKind), leave));
  };
  file.addEventListener("change", async () => {
    const [chosen] = file.files ?? [];
    if (chosen === undefined) return;
    const read = await readExchangeFile(chosen);
    file.value = "";
    if (read.ok) lookAt(read.value);
    else setText(reason, `“${chosen.name}”: ${read.problems.map(describeProblem).join(" ")}`);
  });
  return [
    html(
      "label",
      { class: "hint", for: text.id },
      "Paste what another program has written, or choose its file. You see how it is understood before anything is taken.",
    ),
    text,
    html("p", { class: "kind-of-text" }, kind),
    reason,
    act("see how it is understood", () => lookAt(text.value)),
    act("choose a file", () => file.click()),
    file,
    act("close", leave),
  ];
}

/** The results as files in open formats. */
export function takeOutList(sheet: Sheet, leave: () => void): HTMLElement[] {
  const comma = html("input", { type: "checkbox" });
  const line = (words: string, hint: string, format: ExchangeFormat, table?: ExchangedTable) =>
    html(
      "li",
      {},
      act(words, () => save(sheet, format, { decimalMark: comma.checked ? "," : ".", ...(table && { table }) })),
      " ",
      html("span", { class: "hint" }, hint),
    );
  return [
    html(
      "p",
      { class: "hint" },
      "The results of the strategy in use as files, in millimetres and radians. Each figure has SVG and PNG beneath it; “save” keeps the setup itself.",
    ),
    html(
      "ul",
      {},
      line("budgets, XLSX", "a workbook with formulas: change a source, and all results follow", "xlsx"),
      ...(Object.keys(exchangedTables) as ExchangedTable[]).map((table) => line(`${table}, CSV`, tableHints[table], "csv", table)),
      line("all tables, Markdown", "rounded, to read", "markdown"),
      line("results, D-SI", "values with expanded uncertainties for programs, XML", "dsi"),
      line("all results, JSON", "everything that was found, for programs; it has a JSON Schema", "json"),
    ),
    html("label", { class: "hint line" }, comma, " CSV with decimal commas, semicolons between cells"),
    act("close", leave),
  ];
}

const tableHints: Readonly<Record<ExchangedTable, string>> = {
  results: "zero, faces, sizes, deviations, your own cells and every row of your tables, with expanded uncertainties",
  budget: "every source of every result",
  characteristics: "limits, stacks and chances",
  comparison: "the same for every strategy",
};

/** Shows how a text was understood; the reason why it cannot be used at all, empty for none. */
function look(sheet: Sheet, text: string, kind: ExchangeKind | undefined, onTaken: () => void): string {
  const proposal = bringIn(text, sheet.document, kind);
  if (!proposal.ok) return proposal.problems.map(describeProblem).map(capitalise).join(" ");
  previewProposal(proposal.value, {
    withLayers: (layers) => {
      const again = bringIn(text, sheet.document, kind, { layers });
      return again.ok ? again.value : undefined;
    },
    onTake: (lines) => {
      const what = lines.length === 1 ? "one thing" : `${lines.length} things`;
      onTaken();
      sheet.open(takeLines(sheet.document, lines), `bringing in of ${what}`);
      sheet.say(`${capitalise(what)} brought in; undo takes ${lines.length === 1 ? "it" : "them"} out again.`);
    },
  });
  return "";
}

function save(sheet: Sheet, format: ExchangeFormat, options: TakeOutOptions): void {
  const { whole, results } = sheet;
  if (whole === undefined || results === undefined) {
    sheet.warn("Nothing was taken out: the results are not worked out.");
    return;
  }
  const file = takeOut(whole, format, options);
  const { mediaType, ending } = exchangeFormats[format];
  const name = [fileNameOf(sheet.document.title), format === "csv" ? (options.table ?? "") : ""].filter(Boolean).join("-");
  // The mark at the start tells spreadsheet programs that cells are in UTF-8.
  const parts = format === "csv" ? ["\ufeff", file as string] : [file as BlobPart];
  download(`${name}.${ending}`, new Blob(parts, { type: mediaType }));
  const open = results.problems.length;
  const rest = open === 0 ? "" : " What is not known yet is told in its place.";
  sheet.say(`“${name}.${ending}” is among the downloads.${rest}`);
}
