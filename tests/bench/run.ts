import type { Benchmark } from "./benchmark.ts";
import { measureSides } from "./measureSides.ts";
import { reportSides } from "./reportSides.ts";

// `npm run bench` runs every benchmark beside this file, `npm run bench -- WORD` those with WORD in their file name.
const files = import.meta.glob<Benchmark | readonly Benchmark[]>("./*.bench.ts", { import: "default" });
const word = process.argv[2] ?? "";
const chosen = Object.entries(files).filter(([path]) => path.includes(word));

if (chosen.length === 0) {
  console.error(`No benchmark has "${word}" in its file name. There are: ${Object.keys(files).join(", ")}`);
  process.exitCode = 1;
} else {
  console.log("Times are medians (least to most) over interleaved rounds; x is the ratio to the first side, taken inside each round.");
}
for (const [, load] of chosen) {
  for (const benchmark of [await load()].flat()) console.log(`\n${reportSides(benchmark, await measureSides(benchmark))}`);
}
