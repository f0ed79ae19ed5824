/**
 * The styles of the page for a shadow root. What the page says of itself (`:root`, `html`, `body`) goes to the element `.book` within; what it says of
 * a narrow window goes to a narrow host; and every custom property can be set from outside under the prefix `--datumbook-`.
 *
 * The attribute `scheme` of the host ("light" or "dark") settles what a person's system settles otherwise.
 */
export function shadowStyles(css: string): string {
  return `${frame}\n${rewrite(css.replace(/\/\*[\s\S]*?\*\//g, ""), { isPaper: false })}\n${within}`;
}

/** Before all: the host is the window of what is in it. */
const frame = ":host{display:block;container:datumbook / inline-size}:host([hidden]){display:none}";

/** After all: nothing lies over the page that the element is a part of. */
const within = `.book{min-height:100%}
:host([scheme="light"]) .book{color-scheme:light}
:host([scheme="dark"]) .book{color-scheme:dark}
@media screen{.book .title-block{position:sticky;margin-top:8px}.book .sheet{margin-bottom:0}}`;

interface Where {
  /** Paper is black on white, whatever colours the host wants. */
  readonly isPaper: boolean;
}

function rewrite(css: string, where: Where): string {
  return rulesOf(css)
    .map(({ prelude, body }) => rewriteRule(prelude, body, where))
    .join("\n");
}

function rewriteRule(prelude: string, body: string | undefined, where: Where): string {
  if (body === undefined) return `${prelude};`;
  const narrow = /^@media screen and \((?:max-width:\s*|width\s*<=\s*)([\d.]+px)\)$/.exec(prelude);
  if (narrow) return `@media screen{@container datumbook (max-width: ${narrow[1]}){${rewrite(body, where)}}}`;
  if (/^@media \(prefers-color-scheme:\s*dark\)$/.test(prelude)) {
    const dark = (host: string) => rewrite(body, where).replaceAll(/(^|\n)\.book/g, `$1${host} .book`);
    return `${prelude}{${dark(':host(:not([scheme="light"]))')}}\n@media screen{${dark(':host([scheme="dark"])')}}`;
  }
  if (/^@(media|supports|container)\b/.test(prelude)) return `${prelude}{${rewrite(body, { isPaper: /\bprint\b/.test(prelude) })}}`;
  if (prelude.startsWith("@")) return `${prelude}{${body}}`;
  const isOwn = /^(:root|html|body)$/.test(prelude);
  const declared =
    isOwn && !where.isPaper ? body.replaceAll(/(^|[;{\s])--([\w-]+):\s*([^;]+?)\s*(?=;|$)/g, "$1--$2:var(--datumbook-$2, $3)") : body;
  return `${isOwn ? ".book" : prelude}{${declared}}`;
}

interface Rule {
  readonly prelude: string;
  /** Between its braces; undefined for a statement that ends with a semicolon. */
  readonly body: string | undefined;
}

/** The rules of one level; no text of the project's styles holds a brace. */
function rulesOf(css: string): Rule[] {
  const rules: Rule[] = [];
  let start = 0;
  let depth = 0;
  let open = 0;
  for (let i = 0; i < css.length; i++) {
    const letter = css[i];
    if (letter === "{") {
      if (depth === 0) open = i;
      depth += 1;
    } else if (letter === "}") {
      depth -= 1;
      if (depth === 0) {
        rules.push({ prelude: css.slice(start, open).trim(), body: css.slice(open + 1, i).trim() });
        start = i + 1;
      }
    } else if (letter === ";" && depth === 0) {
      rules.push({ prelude: css.slice(start, i).trim(), body: undefined });
      start = i + 1;
    }
  }
  return rules;
}
