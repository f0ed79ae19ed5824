import type { Moment } from "../base/moment.ts";
import type { Outcome } from "../base/outcome.ts";
import type { Touching } from "../contacts/makeContacts.ts";
import type { WorkFrame } from "../equipment/equipment.ts";
import type { Fixture } from "../equipment/fixture.ts";
import type { NestPlace } from "../equipment/nestPlace.ts";
import type { OffsetRow } from "../equipment/offsetLog.ts";
import type { CellDoubts } from "../ledger/cellDoubts.ts";
import type { DecisionRule } from "../part/decisionRule.ts";
import type { CheckMove, CheckTouch, SetupEvent } from "../readings/checks.ts";
import type { SlipChances } from "../readings/slipKinds.ts";
import type { PlannedTouch } from "../readings/touch.ts";
import type { MadeParts, WarmUp } from "../run/madeParts.ts";
import type { SourceRelation } from "../uncertainty/relateSources.ts";
import type { SourceStatements } from "../uncertainty/sourceBook.ts";
import type { Operation } from "./earlierWork.ts";
import type { Strategy } from "./strategy.ts";

/** Everything that a person states about a setup, read and checked; lengths in mm. */
export interface Setup extends Touching {
  readonly title: string;
  /** The day of its record, where it is stated as ISO 8601 writes one. */
  readonly day: Moment | undefined;
  /** Touches that are still to be taken: strategies can be compared by them, and nothing is known of this part from them. */
  readonly planned: readonly PlannedTouch[];
  readonly strategies: readonly Strategy[];
  /** The strategy in use; empty for none. */
  readonly chosen: string;
  /** What the part is set against. */
  readonly fixture: Fixture;
  /** What was measured on parts that were made with it. */
  readonly madeParts: MadeParts;
  /** How a zero drifts while the machine warms. */
  readonly warmUp: WarmUp;
  /** What was put into the controller's offsets, oldest first. */
  readonly offsets: readonly OffsetRow[];
  /** Where parts lie beside the first. */
  readonly nests: readonly NestPlace[];
  /** Offsets that were active when touches were read. */
  readonly frames: readonly WorkFrame[];
  /** Touches that look whether the zero holds; the part is not located by them. */
  readonly checks: readonly CheckTouch[];
  readonly checkMoves: readonly CheckMove[];
  /** In the order in which they happened. */
  readonly events: readonly SetupEvent[];
  readonly slipChances: SlipChances;
  /** How this part's characteristics are judged; a problem where what is stated cannot be read. */
  readonly decision: Outcome<DecisionRule>;
  /** Standard uncertainty with which made parts are measured, mm; of one coordinate in a round zone. */
  readonly inspection: number | undefined;
  /** The unit in which a person reads and types. */
  readonly unit: "mm" | "inch";
  /** What is stated, or supposed for the moment, about single sources. */
  readonly sources: SourceStatements;
  /** Which of the sources go together. */
  readonly relations: readonly SourceRelation[];
  /** Doubts of a person's own cells that sources of the setup go together with, by source. */
  readonly cellDoubts: CellDoubts["values"];
  /** What is supposed for the moment, in words: results rest on it, and nothing may be typed into a machine. */
  readonly supposed: readonly string[];
  /** Which of several operations this is; left out where the part has one. */
  readonly operation?: Operation;
  readonly sampling: { readonly trials: number; readonly seed: number };
}
