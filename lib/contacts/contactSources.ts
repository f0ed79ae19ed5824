import type { Problem } from "../base/outcome.ts";
import { mm } from "../base/quantity.ts";
import { addScaled, axes, dot, type Vector } from "../base/vector.ts";
import type { Machine, Tool } from "../equipment/equipment.ts";
import { halfLostMotion } from "../equipment/halfLostMotion.ts";
import { positioningPerLength } from "../equipment/positioning.ts";
import { squarenessAbout, squarenessMoves } from "../equipment/squareness.ts";
import type { Element } from "../part/part.ts";
import type { Touch } from "../readings/touch.ts";
import { pooledStandardDeviation, summariseRepeats } from "../uncertainty/repeats.ts";
import type { Evidence, Source } from "../uncertainty/source.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import type { SourceDistribution } from "../uncertainty/sourceDistribution.ts";
import { certain, sum, type Uncertain } from "../uncertainty/uncertain.ts";
import { lobingAt, lobingId } from "./lobing.ts";

/** The errors of one touch: along the travel, and along the surface's normal. */
export interface TouchErrors {
  readonly advance: Uncertain;
  readonly nextAdvance: Uncertain;
  readonly reach: Uncertain;
  /** What the machine's scale is off where the tool stood, along the travel. */
  readonly scaleError: Uncertain;
  /** Standard uncertainty of what this touch shares with no other, mm. */
  readonly ownUncertainty: number;
}

/** What is known of the scatter of one touch. */
interface SingleScatter {
  readonly standardDeviation: number;
  readonly degreesOfFreedom: number;
  readonly evidence: Evidence;
  readonly varianceEstimate: string;
  /** The repeats that it is known from, as places along the travel, where they are the touch's own. */
  readonly along?: readonly number[];
}

const stated: Evidence = { kind: "stated" };

/**
 * The sources behind touches. What belongs to the tool (radius, late trigger,
 * eccentricity) exists once per tool, what belongs to the face (roughness, lean)
 * once per face, scatter once per touch, lost motion once per axis.
 */
export class ContactSources {
  readonly book: SourceBook;
  private readonly machine: Machine;
  private readonly touches: readonly Touch[];
  private readonly travels: ReadonlyMap<string, Vector>;

  /** @param travels direction of travel by touch, for those that have one */
  constructor(machine: Machine, touches: readonly Touch[], travels: ReadonlyMap<string, Vector>, book: SourceBook) {
    this.book = book;
    this.machine = machine;
    this.touches = touches;
    this.travels = travels;
  }

  /**
   * @param touched machine coordinates of the metal that was touched, mm
   * @param middle of the round wall that was touched, as its touches find it; undefined where they do not, and for flat faces
   * @param seen by how much a place that is off along each axis counts as one that is off along the travel; the travel itself for faces square to it
   */
  errorsOf(
    touch: Touch,
    tool: Tool,
    element: Element,
    travel: Vector,
    touched: Vector,
    middle: Vector | undefined,
    seen: Vector = travel,
  ): TouchErrors | Problem {
    const scatter = this.scatterOf(touch, tool, travel);
    if ("what" in scatter) return scatter;
    const step = this.stepOf(touch, tool, scatter.standardUncertainty);
    const display = this.displayOf(touch, travel, "", step);
    const across = this.acrossOf(touch, travel, seen, "");
    const ownUncertainty = Math.hypot(scatter.standardUncertainty, step / 2 / Math.sqrt(3), ...across.map(({ size }) => size));
    const nextDisplay = this.displayOf(touch, travel, " of a check", step);
    // A sweep meets the wall on all sides alike: what is the same on every side moves no axis.
    const scaleError = this.scaleErrorOf(seen, touched);
    if (touch.travelling === "sweep")
      return {
        advance: sum([scatter.now, display, this.sweptLobing(element, travel)]),
        nextAdvance: sum([scatter.next, nextDisplay, this.sweptLobing(element, travel)]),
        reach: certain(0),
        scaleError,
        ownUncertainty,
      };
    const shared = this.eccentricityOf(touch, tool, seen).plus(this.lostMotionOf(travel));
    const nextAcross = this.acrossOf(touch, travel, seen, " of a check");
    return {
      advance: sum([scatter.now, display, shared, ...across.map(({ error }) => error)]),
      nextAdvance: sum([scatter.next, nextDisplay, shared, ...nextAcross.map(({ error }) => error)]),
      reach: sum([
        this.lateTriggerOf(tool, travel),
        this.roughnessOf(element),
        this.leanOf(element),
        this.lobingOf(element, touched, travel, middle),
      ]),
      scaleError,
      ownUncertainty,
    };
  }

  /** Asks for what a tool brings into every touch, whether or not there is one. */
  askForTool(tool: Tool): void {
    for (const axis of [0, 1] as const) this.eccentricityAlong(tool, axis);
    for (const along of ["", " along Z"] as const) this.lateTriggerNamed(tool, along);
  }

  /** Asks for what a face brings into every touch, whether or not there is one. */
  askForFace(element: Element): void {
    this.roughnessOf(element);
    this.leanOf(element);
    lobingAt(element, 0, this.book);
  }

  /** The mean's scatter, and that of a single touch to come, along the travel: a reading's error counts with the sign of the travel. */
  private scatterOf(touch: Touch, tool: Tool, travel: Vector): { now: Uncertain; next: Uncertain; standardUncertainty: number } | Problem {
    const n = touch.positions.length;
    const single = this.singleScatter(touch, tool, travel);
    if ("what" in single) return single;
    const { standardDeviation, degreesOfFreedom, evidence, varianceEstimate, along } = single;
    const distribution = (scale: number): SourceDistribution =>
      Number.isFinite(degreesOfFreedom) ? { shape: "scaledT", scale, degreesOfFreedom } : { shape: "normal", standardDeviation: scale };
    const axis = directionName(travel, touch.travelling);
    const sign = touch.travelling !== "radial" && dot(travel, [1, 1, 1]) < 0 ? -1 : 1;
    const make = (id: string, label: string, scale: number, repeats?: readonly number[]) =>
      this.book
        .value({
          id,
          label,
          family: "contact tool",
          distribution: distribution(scale),
          degreesOfFreedom,
          evidence,
          varianceEstimate,
          ...(repeats && { repeats }),
        })
        .times(sign);
    return {
      now: make(
        `${scatterId(touch.id)}${axis}`,
        `scatter of ${touch.id}, ${n === 1 ? "one reading" : `mean of ${n}`}`,
        standardDeviation / Math.sqrt(n),
        along?.map((place) => sign * place),
      ),
      next: make(`touch ${touch.id}, scatter of a check${axis}`, `scatter of a check of ${touch.id}`, standardDeviation),
      standardUncertainty: standardDeviation / Math.sqrt(n),
    };
  }

  private singleScatter(touch: Touch, tool: Tool, travel: Vector): SingleScatter | Problem {
    if (tool.scatterFrom === "stated") {
      if (tool.scatter !== undefined)
        return {
          standardDeviation: tool.scatter,
          degreesOfFreedom: Number.POSITIVE_INFINITY,
          evidence: tool.scatterEvidence,
          varianceEstimate: `scatter of ${tool.id}`,
        };
      return {
        at: `tools.${tool.id}.scatter`,
        what: `the scatter of one touch with "${tool.id}" is not stated`,
        expected: "a standard deviation, such as 0.005 mm",
        got: "",
        remedy: "state it, or let it come from the repeats",
      };
    }
    if (tool.scatterFrom === "own repeats") {
      const along = alongTravel(touch, travel);
      const { standardDeviation, degreesOfFreedom } = summariseRepeats(along);
      if (standardDeviation !== undefined)
        return {
          standardDeviation,
          degreesOfFreedom,
          evidence: { kind: "measured", readings: degreesOfFreedom + 1 },
          varianceEstimate: `scatter of ${touch.id}, own repeats`,
          along,
        };
      return tooFewRepeats(
        `touches.${touch.id}.readings`,
        `the scatter of "${touch.id}" is to come from its own repeats, and there are not two of them`,
      );
    }
    const groups = this.touches.filter((other) => other.tool === tool.id && other.positions.length > 1);
    const pooled =
      groups.length > 0
        ? pooledStandardDeviation(groups.map((other) => alongTravel(other, this.travels.get(other.id) ?? travel)))
        : undefined;
    if (pooled !== undefined) {
      const readings = groups.reduce((total, group) => total + group.positions.length, 0);
      return { ...pooled, evidence: { kind: "measured", readings }, varianceEstimate: `scatter of ${tool.id}, pooled` };
    }
    return tooFewRepeats(`tools.${tool.id}.scatterFrom`, `no touch with "${tool.id}" has repeats from which its scatter could be pooled`);
  }

  /**
   * The step that readings are rounded to: as stated of the display. Where nothing is stated and the scatter comes from repeats that scatter by less than
   * their last digit tells (step/√12, JCGM 100:2008, F.2.2.1), that digit: repeats that agree to it would tell of no doubt at all. Repeats that scatter by
   * more show the rounding in their scatter, and a scatter that somebody has stated is taken to be that of the readings as they are.
   */
  private stepOf({ resolution = mm(0) }: Touch, { scatterFrom }: Tool, scatter: number): number {
    if (this.machine.displayStep > 0 || scatterFrom === "stated") return this.machine.displayStep;
    return scatter < resolution / Math.sqrt(12) ? resolution : 0;
  }

  private displayOf(touch: Touch, travel: Vector, which: string, step: number): Uncertain {
    return this.book.value({
      id: `touch ${touch.id}, display step${which}${directionName(travel, touch.travelling)}`,
      label: `${this.machine.displayStep > 0 ? "display step" : "step of the digits typed"}${which}, ${touch.id}`,
      family: "machine",
      distribution: { shape: "rectangular", halfWidth: step / 2 },
      evidence: stated,
    });
  }

  private eccentricityOf(touch: Touch, tool: Tool, travel: Vector): Uncertain {
    if (tool.eccentricity === 0 || (travel[0] === 0 && travel[1] === 0)) return certain(0);
    const side = touch.turnedHalfRound ? -1 : 1;
    return sum(([0, 1] as const).map((axis) => this.eccentricityAlong(tool, axis).times(side * travel[axis])));
  }

  private eccentricityAlong(tool: Tool, axis: 0 | 1): Uncertain {
    return this.book.value({
      id: `tool ${tool.id}, eccentricity ${axes[axis]}`,
      label: `eccentricity of ${tool.id} along ${axes[axis]}`,
      family: "contact tool",
      // A fixed offset in an unknown direction, seen along one axis.
      distribution: { shape: "arcsine", halfWidth: tool.eccentricity },
      evidence: stated,
    });
  }

  /** Only where the direction of working is stated: the touch then has a known side (F10); otherwise the doubt belongs to the working alone. */
  private lostMotionOf(travel: Vector): Uncertain {
    return sum(
      ([0, 1, 2] as const).map((axis) => {
        const along = Math.abs(travel[axis]);
        // Each axis hangs to the side of its own move: seen along the travel that is always forwards.
        return this.machine.working[axis] === undefined || along === 0
          ? certain(0)
          : halfLostMotion(this.machine, axis, this.book).times(along);
      }),
    );
  }

  /**
   * Where the place across the travel counts: what is not known of it, besides what all places share. A check comes to stand there anew; on which side of
   * its lost motion an axis came to stand is not known.
   *
   * @returns each error as it counts along the travel, with its standard uncertainty, mm
   */
  private acrossOf(touch: Touch, travel: Vector, seen: Vector, which: "" | " of a check"): { error: Uncertain; size: number }[] {
    const crossing = ([0, 1, 2] as const).filter((axis) => travel[axis] === 0 && seen[axis] !== 0);
    return crossing.flatMap((axis) => {
      const across = `across${crossing.length > 1 ? ` along ${axes[axis]}` : ""}`;
      const of = (what: string, width: number) => ({
        error: this.book
          .value({
            id: `touch ${touch.id}, ${what} ${across}${which}`,
            label: `${what} of ${axes[axis]}${which}, ${touch.id}`,
            family: "machine",
            distribution: { shape: "rectangular", halfWidth: width / 2 },
            evidence: stated,
          })
          .times(seen[axis]),
        size: (Math.abs(seen[axis]) * width) / 2 / Math.sqrt(3),
      });
      return [of("display step", this.machine.displayStep), of("lost motion", this.machine.lostMotion[axis])];
    });
  }

  private scaleErrorOf(seen: Vector, touched: Vector): Uncertain {
    const along = sum(
      ([0, 1, 2] as const).map((axis) => positioningPerLength(this.machine, axis, this.book).times(seen[axis] * touched[axis])),
    );
    if (this.machine.squareness[2] === undefined || seen[0] === 0) return along;
    return along.plus(squarenessAbout(this.machine, 2, this.book).times(seen[0] * squarenessMoves(touched, 0)));
  }

  private lateTriggerOf(tool: Tool, travel: Vector): Uncertain {
    // Along Z the tip's end trips the tool, not its side: another source of the same size.
    const along = travel[2] === 0 ? "" : " along Z";
    return this.lateTriggerNamed(tool, along);
  }

  private lateTriggerNamed(tool: Tool, along: "" | " along Z"): Uncertain {
    return this.book.value({
      id: `tool ${tool.id}, late trigger${along}`,
      label: `late trigger of ${tool.id}${along}`,
      family: "contact tool",
      distribution: { shape: "rectangular", halfWidth: tool.lateTrigger },
      evidence: stated,
    });
  }

  private lobingOf(element: Element, touched: Vector, travel: Vector, middle: Vector | undefined): Uncertain {
    // A boss is touched against the direction in which its metal lies off the axis.
    const outwards = element.kind === "boss" ? -1 : 1;
    const [x, y] = middle === undefined ? [outwards * travel[0], outwards * travel[1]] : addScaled(touched, -1, middle);
    return lobingAt(element, Math.atan2(y, x), this.book);
  }

  /** A sweep's middle is half of the difference between the two sides that it was read on. */
  private sweptLobing(element: Element, travel: Vector): Uncertain {
    const angle = Math.atan2(travel[1], travel[0]);
    return lobingAt(element, angle, this.book)
      .minus(lobingAt(element, angle + Math.PI, this.book))
      .times(0.5);
  }

  private roughnessOf(element: Element): Uncertain {
    return this.book.value({
      id: roughnessId(element.id),
      label: `roughness of ${element.id}`,
      family: "part",
      distribution: { shape: "rectangular", halfWidth: element.roughness },
      evidence: stated,
    });
  }

  private leanOf(element: Element): Uncertain {
    return this.book.value({
      id: leanId(element.id),
      label: `lean of ${element.id}`,
      family: "part",
      distribution: { shape: "rectangular", halfWidth: element.skew },
      evidence: stated,
    });
  }
}

/** Names of sources, by which other stages know what a doubt is about. */
function scatterId(touch: string): string {
  return `touch ${touch}, scatter`;
}

/** Whether a source is the scatter of the mean of this touch (along one axis, for a sweep), not of a check to come. */
export function isScatterOf({ id }: Source, touch: string): boolean {
  const scatter = scatterId(touch);
  return id === scatter || id === `${scatter} X` || id === `${scatter} Y`;
}

/** Whether a source is about the surface of this element: a skim would take it away. */
export function isSurfaceOf({ id }: Source, element: string): boolean {
  return id === roughnessId(element) || id === leanId(element) || id === lobingId(element, "cosine") || id === lobingId(element, "sine");
}

function roughnessId(element: string): string {
  return `element ${element}, roughness`;
}

function leanId(element: string): string {
  return `element ${element}, lean`;
}

function directionName(travel: Vector, travelling: Touch["travelling"]): string {
  return travelling === "sweep" ? ` ${travel[0] === 0 ? "Y" : "X"}` : "";
}

/** Each repeat's place along the travel, mm. */
function alongTravel({ positions }: Touch, travel: Vector): number[] {
  return positions.map((position) => dot(travel, [position[0] ?? 0, position[1] ?? 0, position[2] ?? 0]));
}

function tooFewRepeats(at: string, what: string): Problem {
  return { at, what, expected: "at least two readings", remedy: "touch again, or state the scatter of one touch" };
}
