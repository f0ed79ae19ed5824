// The reference of the package, from the doc-comments of its declarations: a page for each entry, and one that lists them.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";

/**
 * Writes `reference/*.md` into a built package.
 *
 * @returns the public names that carry no doc-comment
 */
export function writeReference(built) {
  const { name, exports } = JSON.parse(readFileSync(join(built, "package.json"), "utf8"));
  const entries = Object.entries(exports).filter(([, { types }]) => types !== undefined);
  mkdirSync(join(built, "reference"), { recursive: true });
  const contents = [
    `# ${name}: reference`,
    "",
    "Written from the doc-comments of the code. Lengths are in millimetres and angles in radians unless a name says otherwise.",
    "",
  ];
  const bare = [];
  for (const [entry, { types }] of entries) {
    const page = pageOf(entry);
    const module = entry.replace(/^\./, name);
    const names = namesOf(join(built, types));
    const parts = names.map(({ name, inner = name, file }) => ({ name, ...declarationOf(file, inner) }));
    bare.push(...parts.filter(({ comment }) => comment === "").map((part) => `${module}: ${part.name}`));
    contents.push(`- [${module}](${page}.md): ${parts.map((part) => part.name).join(", ")}`);
    const text = parts.map((part) => `## ${part.name}\n\n${part.comment}\n\n\`\`\`ts\n${part.code}\n\`\`\`\n`);
    writeFileSync(join(built, `reference/${page}.md`), `# ${module}\n\n${text.join("\n")}`);
  }
  writeFileSync(join(built, "reference/README.md"), `${contents.join("\n")}\n`);
  return bare;
}

/** The main entry also has all names of the stages: its page has those that no stage has. */
function pageOf(entry) {
  return entry === "." ? "main" : entry.slice(2);
}

/** Public names of an entry, each with the declarations that it stands in; an entry without lists of names is its own. */
function namesOf(index) {
  const text = readFileSync(index, "utf8");
  const lists = [...text.matchAll(/export (?:type )?\{([^}]*)\} from "([^"]+)";/g)];
  if (lists.length === 0)
    return [...text.matchAll(/^export (?:declare )?(?:abstract )?(?:class|interface|type|function|const) (\w+)/gm)].map(([, name]) => ({
      name,
      file: index,
    }));
  return lists.flatMap(([, names, path]) =>
    names
      .split(",")
      .map((each) => each.trim().replace(/^type /, ""))
      .filter((each) => each !== "" && each !== "default")
      .map((each) => {
        const [inner, outer = inner] = each.split(" as ");
        return { name: outer, inner: inner === "default" ? "_default" : inner, file: join(dirname(index), path.replace(/\.js$/, ".d.ts")) };
      }),
  );
}

/** The doc-comment of a name, and its declaration without a class's private parts. */
function declarationOf(file, name) {
  const lines = readFileSync(file, "utf8").split("\n");
  const start = lines.findIndex((line) =>
    new RegExp(`^(?:export )?(?:declare )?(?:abstract )?(?:class|interface|type|function|const) ${name}\\b`).test(line),
  );
  if (start < 0) {
    const from = new RegExp(`(?:export|import) (?:type )?\\{[^}]*\\b${name}\\b[^}]*\\} from "([^"]+)"`).exec(lines.join("\n"))?.[1];
    const next = from === undefined ? undefined : join(dirname(file), from.replace(/\.js$/, ".d.ts"));
    return next !== undefined && existsSync(next) ? declarationOf(next, name) : { comment: "", code: `export ${name}` };
  }
  const isBlock = /\{$/.test(lines[start]);
  const end = lines.findIndex((line, i) => i >= start && (isBlock ? /^\}/.test(line) : /;$/.test(line) && /^[^ ]|^ +[^ ].*;$/.test(line)));
  const code = lines.slice(start, end + 1).filter((line) => !/^ +(?:private|#private)\b/.test(line));
  return { comment: commentAbove(lines, start), code: code.join("\n").replace(/^export (?:declare )?|^declare /, "") };
}

function commentAbove(lines, start) {
  if (!/\*\/$/.test(lines[start - 1] ?? "")) return "";
  let from = start - 1;
  while (!/^\s*\/\*\*/.test(lines[from])) from -= 1;
  return lines
    .slice(from, start)
    .map((line) =>
      line
        .replace(/^\s*\/\*\*\s?/, "")
        .replace(/\s*\*\/$/, "")
        .replace(/^\s*\* ?/, ""),
    )
    .join("\n")
    .trim()
    .replace(/^@param (\w+) /gm, "\n- `$1`: ")
    .replace(/^@returns /gm, "\nReturns ")
    .replace(/^@throws /gm, "\nThrows ");
}
