import { readFileSync, writeFileSync } from "node:fs";
import { ratesTable, slipRates } from "./slipRates.ts";

// `npm run slips` measures on 10,000 setups, `npm run slips -- NUMBER` on so many, and writes the tables into DEVELOPERS.md.
const setups = Number(process.argv[2] ?? 10_000);
const [start, end] = ["<!-- slip rates: written by npm run slips -->", "<!-- end of slip rates -->"];
const file = new URL("../../DEVELOPERS.md", import.meta.url);

if (!Number.isInteger(setups) || setups < 1) {
  console.error(`expected a number of setups above 0, got ${process.argv[2]}`);
  process.exitCode = 1;
} else {
  const table = ratesTable(slipRates(setups, 1));
  const text = readFileSync(file, "utf8");
  const [from, to] = [text.indexOf(start), text.indexOf(end)];
  if (from < 0 || to < from) throw new Error(`expected the marks "${start}" and "${end}" in DEVELOPERS.md`);
  writeFileSync(file, `${text.slice(0, from)}${start}\n\n${table}\n\n${text.slice(to)}`);
  console.log(table);
}
