import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { locatePart } from "../../lib/datum/locatePart.ts";
import type { Strategy } from "../../lib/datum/strategy.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { readSetup } from "../../lib/document/readSetup.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { drawsFor, evaluateSetup } from "../../lib/evaluateSetup.ts";
import { searchStrategies } from "../../lib/searchStrategies.ts";
import type { Benchmark } from "./benchmark.ts";
import { processorTime } from "./processorTime.ts";

const parsed = parseDocument(readFileSync(fileURLToPath(new URL("../../notebooks/demo/bearingCover.json", import.meta.url)), "utf8"));
if (!parsed.ok) throw new Error("the demo job cannot be read");
const demo = parsed.value;

/** The demo job with every flat face touched so many times as often. */
function touchedAgain(times: number): SetupDocument {
  const flat = demo.touches.filter(({ travelling }) => travelling !== "radial" && travelling !== "sweep");
  const more = Array.from({ length: times - 1 }, (_, k) => flat.map((touch) => ({ ...touch, id: `${touch.id}, ${k + 2}` })));
  return { ...demo, touches: [...demo.touches, ...more.flat()] };
}

let tried = 0;

/** What a person waits for who asks for other strategies. */
const search: Benchmark = {
  name: "Search for strategies; wanted: 1000 in a second",
  work: "the demo job with its flat faces touched three times as often, every usual strategy tried; processor time",
  sides: [
    { name: "evaluateSetup(document), four strategies", prepare: () => processorTime(() => evaluateSetup(demo), undefined, 20) },
    {
      name: "searchStrategies",
      prepare: () => {
        const { setup } = readSetup(touchedAgain(3));
        const location = locatePart(setup);
        const draws = drawsFor(setup);
        const like = setup.strategies.find(({ id }) => id === setup.chosen) as Strategy;
        return processorTime(
          () => {
            const steps = searchStrategies(location, like, "batch", draws);
            let step = steps.next();
            while (!step.done) step = steps.next();
            tried = step.value.tried;
          },
          () => `${tried} strategies`,
        );
      },
    },
  ],
  rounds: 3,
};
export default search;
