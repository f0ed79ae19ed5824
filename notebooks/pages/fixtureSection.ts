import { describeProblem } from "../../lib/base/outcome.ts";
import { fixtureSentences } from "../../lib/record/fixtureSentences.ts";
import type { FixtureEvaluation } from "../../lib/tolerance/judgeFixture.ts";
import type { Stack } from "../../lib/tolerance/stack.ts";
import { type UnitWriter, unitOfStack, writerOf } from "../figures/displayUnit.ts";
import { formatMet, formatShare } from "../figures/formatChance.ts";
import { html, setChildren } from "../inputs/html.ts";
import { InSight } from "../inputs/inSight.ts";
import { paragraphs } from "../inputs/paragraphs.ts";
import { PlainTable } from "../inputs/plainTable.ts";
import { plainDecimals } from "./format.ts";
import type { SheetResults } from "./sheetResults.ts";

/** What the fixture does to the part, in sentences, and what locating alone does to every characteristic. */
export class FixtureSection {
  readonly element: HTMLElement;
  private readonly sentences = html("div", { class: "findings" });
  private readonly effects = new PlainTable({
    caption: "By locating alone, in the batch: as if zero, machine and cutting were perfect",
    columns: [
      { label: "characteristic" },
      { label: "most of it from" },
      { label: "expected", number: true, hint: "of a position the diameter used" },
      { label: "RSS", number: true, hint: "share of the tolerance that the root sum square uses" },
      { label: "worst", number: true, hint: "share of the tolerance that the worst case uses" },
      { label: "chance", number: true, hint: "of being met" },
    ],
  });
  private readonly inSight: InSight;
  private shown: FixtureEvaluation | undefined;

  constructor() {
    this.element = html("div", { class: "fixture" }, this.sentences, this.effects.element);
    this.inSight = new InSight(this.element);
  }

  /** The contact of a locator that comes first; empty where it has none. */
  contactOf(locator: string): string {
    const located = this.shown?.located;
    return (located?.ok && located.value.location.contacts.find((contact) => contact.locator === locator)?.label) || "";
  }

  /** Undefined where nothing is known: nothing old stays. */
  show(results: SheetResults | undefined): void {
    this.shown = results?.evaluation.fixture;
    if (results === undefined) this.inSight.now(() => this.fill(undefined));
    else this.inSight.run(() => this.fill(results));
  }

  private fill(results: SheetResults | undefined): void {
    const fixture = results?.evaluation.fixture;
    if (results === undefined || fixture === undefined) {
      setChildren(this.sentences, []);
      this.effects.element.hidden = true;
      return;
    }
    const { setup } = results.evaluation;
    setChildren(this.sentences, paragraphs(fixtureSentences(fixture, { unit: setup.unit })));
    const stacks = fixture.located.ok ? fixture.located.value.judgement.stacks : [];
    this.effects.element.hidden = stacks.length === 0;
    this.effects.show(
      stacks.map((stack, i) =>
        stack.ok
          ? stackRow(stack.value, writerOf(unitOfStack(stack.value, setup.unit)), plainDecimals[setup.unit])
          : [
              setup.part.characteristics[i]?.id ?? "",
              stack.problems.map((problem) => describeProblem({ ...problem, at: "" })).join(" "),
              "",
              "",
              "",
              "",
            ],
      ),
    );
  }
}

function stackRow({ characteristic, isRound, deviation, shares, chance, rows }: Stack, writer: UnitWriter, decimals: number): string[] {
  const write = isRound ? writer.fixed : writer.signed;
  const [largest] = rows;
  return [
    characteristic,
    largest?.source.label ?? "nothing",
    `${write(deviation, decimals)}${writer.suffix}`,
    formatShare(shares.rootSumSquare),
    formatShare(shares.worstCase),
    formatMet(chance),
  ];
}
