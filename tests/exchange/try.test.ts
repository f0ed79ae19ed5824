import { readFileSync, writeFileSync, readdirSync } from "node:fs";
import { it } from "vitest";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { budgetWorkbook } from "../../lib/exchange/budgetWorkbook.ts";
import { dsiText } from "../../lib/exchange/dsiText.ts";
import { csvText } from "../../lib/exchange/csvText.ts";
import { markdownText } from "../../lib/exchange/markdownText.ts";
import { exchangedTables } from "../../lib/exchange/resultTables.ts";
it("x", () => {
  for (const f of readdirSync("notebooks/demo").filter((n) => n.endsWith(".json"))) {
    const d = parseDocument(readFileSync(`notebooks/demo/${f}`, "utf8"));
    if (!d.ok) throw new Error(f);
    const e = evaluateSetup(d.value);
    writeFileSync(`/tmp/x/${f}.xlsx`, budgetWorkbook(e));
    writeFileSync(`/tmp/x/${f}.xml`, dsiText(e));
    for (const [name, t] of Object.entries(exchangedTables)) writeFileSync(`/tmp/x/${f}.${name}.csv`, csvText(t(e)));
    writeFileSync(`/tmp/x/${f}.md`, markdownText(Object.values(exchangedTables).map((t) => t(e))));
  }
});
