import { readFileSync } from "node:fs";

/** How large a job is made of the demo job. */
export interface ManyStrategies {
  readonly strategies: number;
  /** Each with a position zone of its own; the drawing demands nothing else. */
  readonly holes: number;
  readonly trials: number;
  /** Which strategy is in use, from 0. */
  readonly chosen: number;
}

interface DemoJob {
  readonly part: { readonly elements: readonly { readonly id: string }[]; readonly characteristics: readonly { readonly id: string }[] };
  readonly strategies: readonly { readonly id: string }[];
}

/** The demo job with many strategies and holes, as the text of a document: strategies are those of the demo job in turn, named `corner 3` and so on. */
export function manyStrategies({ strategies, holes, trials, chosen }: ManyStrategies): string {
  const demo: DemoJob = JSON.parse(readFileSync(new URL("../../notebooks/demo/bearingCover.json", import.meta.url), "utf8"));
  const hole = demo.part.elements.find(({ id }) => id === "hole 1");
  const demand = demo.part.characteristics.find(({ id }) => id === "hole 1");
  const bolts = Array.from({ length: holes }, (_, i) => ({
    ...hole,
    id: `bolt ${i + 1}`,
    x: String(-70 + (i % 10) * 15),
    y: String(-45 + Math.floor(i / 10) * 18),
    diameter: "6",
  }));
  const all = Array.from({ length: strategies }, (_, i) => {
    const like = demo.strategies[i % demo.strategies.length];
    return { ...like, id: `${like?.id} ${i + 1}` };
  });
  return JSON.stringify({
    ...demo,
    ledger: [],
    sampling: { trials, seed: 1 },
    part: {
      ...demo.part,
      elements: [...demo.part.elements, ...bolts],
      characteristics: bolts.map(({ id }) => ({ ...demand, id: `${id}, position`, of: id })),
    },
    strategies: all,
    chosen: all[chosen]?.id,
  });
}
