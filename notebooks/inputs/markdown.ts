import { html } from "./html.ts";

/**
 * A text of the guide as elements: headings, paragraphs, lists with one level, tables, `code`, **strong** and _emphasis_. No text becomes markup otherwise.
 *
 * @param level of the first heading
 */
export function markdown(text: string, level: 2 | 3 = 2): HTMLElement[] {
  return text
    .replace(/\r\n/g, "\n")
    .split(/\n{2,}/)
    .filter((block) => block.trim() !== "")
    .map((block) => blockOf(block.trim(), level));
}

function blockOf(block: string, level: number): HTMLElement {
  const heading = /^(#{1,3}) (.+)$/.exec(block);
  if (heading) return html(`h${level + (heading[1] as string).length - 1}` as "h2", {}, ...inline(heading[2] as string));
  const items = block.split(/\n(?=(?:- |\d+\. ))/);
  const isNumbered = /^\d+\. /.test(block);
  if (isNumbered || block.startsWith("- ")) {
    return html(isNumbered ? "ol" : "ul", {}, ...items.map((item) => html("li", {}, ...inline(item.replace(/^(?:- |\d+\. )/, "")))));
  }
  return block.startsWith("| ") ? tableOf(block.split("\n")) : html("p", {}, ...inline(block));
}

/** Between two rows of pipes with cells a row of lines; `\|` is a pipe within a cell. */
function tableOf([head = "", , ...rows]: readonly string[]): HTMLElement {
  const cells = (row: string) =>
    row
      .slice(1, -1)
      .split(/(?<!\\)\|/)
      .map((cell) => inline(cell.trim().replaceAll("\\|", "|")));
  return html(
    "table",
    {},
    html("thead", {}, html("tr", {}, ...cells(head).map((cell) => html("th", { scope: "col" }, ...cell)))),
    html("tbody", {}, ...rows.map((row) => html("tr", {}, ...cells(row).map((cell) => html("td", {}, ...cell))))),
  );
}

/** The first of the three that begins is the one that counts. */
function inline(text: string): (Node | string)[] {
  return text
    .replace(/\s*\n\s*/g, " ")
    .split(/(`[^`]+`|\*\*[^*]+\*\*|(?<!\w)_[^_]+_(?!\w))/)
    .filter((part) => part !== "")
    .map((part) => {
      if (part.startsWith("`")) return html("code", {}, part.slice(1, -1));
      if (part.startsWith("**")) return html("strong", {}, part.slice(2, -2));
      return /^_[^_]+_$/.test(part) ? html("em", {}, part.slice(1, -1)) : part;
    });
}
