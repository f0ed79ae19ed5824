import { readFileSync } from "node:fs";
import { mm } from "../../lib/base/quantity.ts";
import { addScaled, unitVector, type Vector } from "../../lib/base/vector.ts";
import { locatePart } from "../../lib/datum/locatePart.ts";
import type { Setup } from "../../lib/datum/setup.ts";
import { judgeChecks } from "../../lib/decision/judgeChecks.ts";
import { checkDocument } from "../../lib/document/parseDocument.ts";
import { readSetup } from "../../lib/document/readSetup.ts";
import { drawsFor, evaluateStrategies } from "../../lib/evaluateSetup.ts";
import type { Touch } from "../../lib/readings/touch.ts";
import { disagreementRate } from "../../lib/slips/explain/explainDisagreement.ts";
import { lookForSlips, type SlipReport } from "../../lib/slips/lookForSlips.ts";
import { simulateSetups } from "../../lib/slips/simulateSetups.ts";
import type { SlipFacts } from "../../lib/slips/slipFacts.ts";
import { slipRules } from "../../lib/slips/slipRules.ts";
import { generator, normal } from "../properties/random.ts";
import { must } from "../properties/setups.ts";

/** What one rule did on simulated setups. */
export interface RuleRate {
  readonly rule: string;
  /** Of a rule that looks at two things, the one that was simulated. */
  readonly looksAt: string | undefined;
  readonly stated: number;
  readonly clean: number;
  readonly falseAlarms: number;
  readonly slipped: number;
  readonly found: number;
  /** Whole setups, or single facts where a document does not hold what the rule needs. */
  readonly from: "setups" | "facts";
}

/** How often the right explanation came first where the evidence disagreed. */
export interface ExplanationRate {
  readonly slip: string;
  readonly setups: number;
  readonly disagreed: number;
  readonly first: number;
  readonly amongTwo: number;
}

export interface SlipRates {
  readonly rules: readonly RuleRate[];
  readonly explanations: readonly ExplanationRate[];
  readonly cleanSetups: number;
  /** Clean setups whose evidence was called in disagreement. */
  readonly cleanDisagreements: number;
}

// biome-ignore lint/suspicious/noExplicitAny: JSON data that is edited before it is a document
type Data = Record<string, any>;

interface SimulatedJob {
  readonly name: string;
  readonly setup: Setup;
  readonly simulate: (trial: number) => Setup;
}

const demo = (name: string): Data => JSON.parse(readFileSync(new URL(`../../notebooks/demo/${name}.json`, import.meta.url), "utf8"));
const row = (table: readonly Data[], id: string): Data => table.find((each) => each["id"] === id) as Data;
const check = (element: string, travelling: string, tool: string, more: Data = {}): Data => ({
  id: element,
  element,
  travelling,
  tool,
  readings: "0",
  ...more,
});

/** The jobs that come with the notebook, each with checks of its faces, and a size measured where it has one. */
const jobs: readonly (() => readonly [string, Data])[] = [
  () => {
    const job = demo("sawnPlate");
    Object.assign(row(job["part"].elements, "sawn end"), { roughness: "0.002", skew: "" });
    Object.assign(row(job["part"].dimensions, "length"), { measured: "239.820", measuredUncertainty: "0.004" });
    row(job["touches"], "left")["readings"] = "-443.181 -443.176 -443.179 -443.172 -443.170";
    row(job["touches"], "right")["readings"] = "-197.003 -196.998 -197.001 -197.000 -196.999";
    job["tools"].push({ ...row(job["tools"], "cutter 2"), id: "cutter 3", length: "131.7" });
    job["chosen"] = "middle of the length";
    job["checks"] = [
      check("milled end", "-X", "finder", { y: "-240" }),
      check("sawn end", "+X", "finder", { y: "-240" }),
      check("top", "-Z", "cutter 2", { spacer: "roller" }),
      check("front", "+Y", "finder", { x: "-300" }),
    ];
    for (const each of job["checks"]) each["when"] = "2026-03-02 08:30";
    job["events"] = [{ id: "switched on", kind: "reference run", when: "2026-03-02 08:00" }];
    job["checkMoves"] = [{ id: "over the top", tool: "cutter 2", x: "100", y: "40", clearance: "2" }];
    return ["sawn plate", job];
  },
  () => {
    const job = demo("bearingCover");
    job["checks"] = [check("left", "+X", "probe", { y: "-180" }), check("top", "-Z", "tool 7")];
    return ["bearing cover", job];
  },
  () => {
    const job = demo("turnedCasting");
    job["checks"] = [check("parallels", "-Z", "cutter 3")];
    return ["turned casting", job];
  },
  () => {
    const job = demo("skewedBlank");
    job["checks"] = [check("left", "+X", "probe", { y: "-200" }), check("top", "-Z", "cutter 5")];
    return ["skewed blank", job];
  },
];

function open(make: (typeof jobs)[number], seed: number, count: number): SimulatedJob {
  const [name, data] = make();
  const { setup, problems } = readSetup(must(checkDocument(data)));
  if (problems.length > 0) throw new Error(`${name}: ${JSON.stringify(problems)}`);
  const chosen = { ...setup, strategies: setup.strategies.filter(({ id }) => id === setup.chosen) };
  return { name, setup: chosen, simulate: simulateSetups(locatePart(chosen), seed, count) };
}

function reportOf(setup: Setup): SlipReport {
  const location = locatePart(setup);
  const strategies = evaluateStrategies(location, drawsFor({ ...setup, sampling: { trials: 1, seed: 1 } }));
  const [inUse] = strategies;
  const { checks } = judgeChecks(location, strategies);
  return lookForSlips({ setup, location, checks, fixture: undefined }, inUse?.evaluation.ok ? inUse.evaluation.value : undefined);
}

/** One slip, made in a setup without any: which rule should see it, and what should be the first explanation. */
interface Slip {
  readonly rule: string;
  readonly job: number;
  readonly explanation: string | undefined;
  readonly make: (setup: Setup) => Setup;
  /** The jobs that are without this slip as they come; all of them where left out. */
  readonly cleanJobs?: readonly number[];
}

/** Those whose zero rests on the faces that the drawing measures from. */
const withDatums = [2, 3];

/** By hand, with F = R + a · r: the finder's radius is 3 mm, the roller 10 mm, cutter 3 is 13.24 mm longer than cutter 2. */
const slips: readonly Slip[] = [
  { rule: "diameter used for the radius", job: 0, explanation: "tools.finder.radius", make: (setup) => withTool(setup, "finder", 6) },
  { rule: "radius not applied", job: 0, explanation: "tools.finder.radius", make: (setup) => withTool(setup, "finder", 0) },
  {
    rule: "sign wrong on both sides",
    job: 0,
    explanation: undefined,
    make: (setup) => move(move(move(move(setup, "left", 6), "right", 6), "check sawn end", 6), "check milled end", 6),
  },
  { rule: "sign wrong on one side", job: 0, explanation: "touches.left", make: (setup) => move(setup, "left", 6) },
  { rule: "inch and millimetre mixed", job: 0, explanation: undefined, make: (setup) => withMeasured(setup, (value) => value / 25.4) },
  { rule: "length of another tool", job: 0, explanation: "checks.top", make: (setup) => move(setup, "check top", -13.24) },
  { rule: "block or paper forgotten, or counted twice", job: 0, explanation: "checks.top", make: (setup) => move(setup, "check top", 10) },
  { rule: "middle with one rough or burred face", job: 0, explanation: undefined, make: (setup) => scatter(setup, "left", 12) },
  { rule: "skew ignored", job: 0, explanation: undefined, make: (setup) => move(setup, "front 2", -0.1) },
  { rule: "poor centre of a round wall", job: 1, explanation: undefined, make: (setup) => move(setup, "b1", -0.2) },
  { rule: "typing slip", job: 0, explanation: "checks.milled end", make: exchangeDigits },
  { rule: "zero on a face that is no datum", job: 0, explanation: undefined, make: (setup) => setup, cleanJobs: withDatums },
  { rule: "opposite touches not alike", job: 0, explanation: undefined, make: withAnotherFinder },
  { rule: "opposite approaches mixed", job: 0, explanation: undefined, make: (setup) => withLostMotion(setup, 0.08) },
  { rule: "angle from too short a baseline", job: 3, explanation: undefined, make: withShortBaseline },
  { rule: "not verified since an event", job: 0, explanation: undefined, make: (setup) => move(setup, "check top", 0.2), cleanJobs: [0] },
  { rule: "reading written down after the retract", job: 0, explanation: undefined, make: (setup) => move(setup, "check top", -2) },
];

function withTool(setup: Setup, id: string, radius: number): Setup {
  return { ...setup, tools: setup.tools.map((tool) => (tool.id === id ? { ...tool, radius: mm(radius) } : tool)) };
}

/** One of two opposite touches with a second tool like the first. */
function withAnotherFinder(setup: Setup): Setup {
  const [finder] = setup.tools.filter(({ id }) => id === "finder") as [Setup["tools"][number]];
  return {
    ...setup,
    tools: [...setup.tools, { ...finder, id: "finder 2" }],
    touches: setup.touches.map((touch) => (touch.id === "right" ? { ...touch, tool: "finder 2" } : touch)),
  };
}

function withLostMotion(setup: Setup, amount: number): Setup {
  return { ...setup, machine: { ...setup.machine, lostMotion: [mm(amount), mm(amount), mm(0)] } };
}

/** The three touches of the edge 2 mm apart. */
function withShortBaseline(setup: Setup): Setup {
  const touches = setup.touches.map((touch) => {
    const place = ["front 1", "front 2", "front 3"].indexOf(touch.id);
    if (place < 0) return touch;
    const positions = touch.positions.map((position) => [mm(-260 + 2 * place), position[1], position[2]] as Positions[number]);
    return { ...touch, positions };
  });
  return { ...setup, touches };
}

function withMeasured(setup: Setup, change: (value: number) => number): Setup {
  const dimensions = setup.part.dimensions.map((each) =>
    each.measured ? { ...each, measured: { ...each.measured, value: mm(change(each.measured.value)) } } : each,
  );
  return { ...setup, part: { ...setup.part, dimensions } };
}

/** All readings of a touch, or of `check NAME`, farther along by so much. */
function move(setup: Setup, name: string, along: number): Setup {
  return change(setup, name, (positions, travel) => positions.map((position) => moved(position, along, travel)));
}

function scatter(setup: Setup, name: string, times: number): Setup {
  return change(setup, name, (positions, travel) => {
    const axis = travel.findIndex((component) => component !== 0);
    const mean = positions.reduce((sum, position) => sum + (position[axis] as number), 0) / positions.length;
    return positions.map((position) =>
      moved(position, ((position[axis] as number) - mean) * (times - 1) * (travel[axis] as number), travel),
    );
  });
}

type Positions = Touch["positions"];

function moved(position: Positions[number], along: number, travel: Vector): Positions[number] {
  const shift = addScaled([0, 0, 0], along, travel);
  return position.map((value, axis) => (value === undefined ? undefined : value + (shift[axis] as number))) as unknown as Positions[number];
}

function change(setup: Setup, name: string, to: (positions: Positions, travel: Vector) => Positions): Setup {
  const one = <T extends Touch>(touch: T, is: boolean): T =>
    is ? { ...touch, positions: to(touch.positions, unitVector(touch.travelling as "+X")) } : touch;
  return {
    ...setup,
    touches: setup.touches.map((touch) => one(touch, touch.id === name)),
    checks: setup.checks.map((each) => one(each, `check ${each.id}` === name)),
  };
}

/** Tens and ones of the check on the milled end: -197.001 is typed as -179.001. */
function exchangeDigits(setup: Setup): Setup {
  return change(setup, "check milled end", (positions) =>
    positions.map((position) => {
      const text = (position[0] as number).toFixed(3);
      const point = text.indexOf(".");
      const typed = `${text.slice(0, point - 2)}${text[point - 1]}${text[point - 2]}${text.slice(point)}`;
      return [mm(Number(typed)), position[1], position[2]] as Positions[number];
    }),
  );
}

/** Facts that a document does not hold, drawn without and with their slip. */
interface FactSource {
  readonly rule: string;
  readonly looksAt?: string;
  readonly make: (random: () => number, slipped: boolean) => Omit<SlipFacts, "unit">;
}

const at = "somewhere";
const estimate = (value: number, standardUncertainty: number) => ({
  value,
  standardUncertainty,
  degreesOfFreedom: Number.POSITIVE_INFINITY,
});

/**
 * Doubts of 5 micrometres, an offset of -412.6 mm, a shift of 0.5 mm, a chip of 0.08 mm, nests 30 to 250 mm apart that stand within some 0.3 mm of their drawing, a bore that a sweep finds some 0.05 mm off by an indicator that
 * scatters by 0.002 mm. A correction is asked
 * for by five times what scatter leaves of the mean of four parts, or, as a slip, by nothing; of tools one pulls by 0.05 mm, or, as a slip, all are off by it.
 * Six registers have their zeros anywhere on a table of 500 mm by 300 mm; a zero is foreseen to drift by 0.005 mm, or, as a slip, by 0.03 mm, where 0.02 mm is allowed.
 */
const facts: readonly FactSource[] = [
  {
    rule: "offset applied twice",
    make: (random, slipped) => ({
      zeros: [{ at, axis: "X", found: (slipped ? 2 : 1) * -412.6 + 0.005 * normal(random), previous: -412.6, standardUncertainty: 0.005 }],
    }),
  },
  {
    rule: "shift left on",
    make: (random, slipped) => ({
      shifts: (["X", "Y", "Z"] as const).map((axis) => ({
        at,
        register: "G54",
        axis,
        remaining: estimate((slipped ? 0.5 : 0) + 0.005 * normal(random), 0.005),
        nestActive: false,
      })),
    }),
  },
  {
    rule: "nominal width halved instead of the measured one",
    make: (random, slipped) => ({
      halves: [{ at, strategy: "s", middle: "m", difference: estimate((slipped ? 0.06 : 0) + 0.005 * normal(random), 0.005) }],
    }),
  },
  {
    rule: "part turned over about another axis",
    make: (random, slipped) => ({
      turnovers: [
        {
          at,
          feature: "bore",
          axis: "X",
          touched: (slipped ? -30 : 30) + 0.005 * normal(random),
          standardUncertainty: 0.005,
          assumed: { turn: "about X", predicted: 30 },
          others: [{ turn: "about Y", predicted: -30 }],
        },
      ],
    }),
  },
  {
    rule: "part not seated",
    make: (random, slipped) => ({
      seats: [0, 1, 2].map((i) => ({
        at,
        what: "a lift",
        lift: estimate((slipped && i === 0 ? 0.08 : 0) + 0.005 * normal(random), 0.005),
      })),
    }),
  },
  {
    rule: "correction with the wrong sign or in the wrong place",
    looksAt: "sign",
    make: (random, slipped) => {
      const true_ = 0.05;
      const first = true_ + 0.005 * normal(random);
      return {
        articles: [
          {
            at,
            characteristic: "hole",
            first,
            second: true_ + (slipped ? 1 : -1) * first + 0.005 * normal(random),
            change: -first,
            standardUncertainty: 0.005,
          },
        ],
      };
    },
  },
  {
    rule: "corrected on too few parts",
    looksAt: "after each part",
    make: (random, slipped) => {
      const scatters = Array.from({ length: 60 }, () => 0.01 * normal(random));
      let offset = 0;
      const deviations = scatters.map((each) => {
        const deviation = each + offset;
        // Whoever chases every part takes its whole deviation out of the offset.
        if (slipped) offset -= deviation;
        return deviation;
      });
      return { runs: [{ at, characteristic: "hole", deviations, standardDeviation: 0.01, corrected: "after each" }] };
    },
  },
  {
    rule: "correction with the wrong sign or in the wrong place",
    looksAt: "place",
    make: (random, slipped) => ({
      corrections: [
        {
          at,
          place: "one tool",
          deviations: [0, 1, 2].map((i) => ({
            tool: `tool ${i + 1}`,
            deviation: estimate((slipped || i === 0 ? 0.05 : 0) + 0.005 * normal(random), 0.005),
          })),
        },
      ],
    }),
  },
  {
    rule: "corrected on too few parts",
    looksAt: "one correction",
    make: (random, slipped) => ({
      runs: [
        {
          at,
          characteristic: "hole",
          deviations: Array.from({ length: 4 }, () => (slipped ? 0 : (5 * 0.01) / Math.sqrt(4)) + 0.01 * normal(random)),
          standardDeviation: 0.01,
          corrected: "now",
        },
      ],
    }),
  },
  {
    rule: "total indicator reading used for the shift",
    make: (random, slipped) => {
      const off = 0.05 * normal(random);
      const half = off + 0.002 * normal(random);
      // Moved to a step of the display.
      const applied = Math.round((slipped ? 2 : 1) * 1000 * half) / 1000;
      const standardUncertainty = Math.hypot(0.002, (Math.SQRT2 * 0.001) / Math.sqrt(12));
      return { sweeps: [{ at, axis: "X", applied, totalReading: 2 * half, cosine: 1, standardUncertainty }] };
    },
  },
  {
    rule: "wrong register",
    make: (random, slipped) => {
      const anywhere = () => [500 * random(), 300 * random(), 20 * random()];
      const near = (place: readonly number[]) => place.map((each) => each + 2 * normal(random));
      const [own, ...others] = Array.from({ length: 6 }, anywhere) as [number[], ...number[][]];
      // A fixture that stays is set anew about where it stood, another one anywhere.
      const written = slipped ? near(others[0] as number[]) : random() < 0.5 ? near(own) : anywhere();
      // Along which axes it was written: all three, or X and Y, or one alone.
      const along = random() < 0.5 ? [0, 1, 2] : random() < 0.5 || slipped ? [0, 1] : [Math.floor(3 * random())];
      return {
        registers: along.map((axis) => ({
          at,
          register: "G54",
          called: true,
          written: { value: written[axis] as number, before: own[axis] as number },
          others: others.map((each, i) => ({ register: `G5${5 + i}`, before: each[axis] as number })),
        })),
      };
    },
  },
  {
    rule: "zero set cold, or too long ago",
    make: (random, slipped) => ({
      ages: [
        {
          at,
          axis: "Z",
          minutes: 90,
          drift: estimate((slipped ? 0.03 : 0.005) + 0.003 * normal(random), 0.003),
          allowed: 0.02,
        },
      ],
    }),
  },
  {
    rule: "machine position typed as a shift",
    make: (random, slipped) => {
      const pitch = 30 + 220 * random();
      const stands = pitch + 0.3 * normal(random);
      const shift = stands + (slipped ? -412.6 : 0) + 0.005 * normal(random);
      return { nestShifts: [{ at, axis: "X", shift, pitch, measuredZero: -412.6, standardUncertainty: 0.005 }] };
    },
  },
];

/**
 * False alarms and finds of every rule, on so many setups without a slip, and a twentieth as many with each slip, from 10 to 100.
 *
 * @param seed unsigned 32-bit integer
 */
export function slipRates(cleanSetups: number, seed: number): SlipRates {
  const perJob = Math.ceil(cleanSetups / jobs.length);
  const perSlip = Math.min(100, Math.max(10, Math.ceil(cleanSetups / 20)));
  const opened = jobs.map((make) => open(make, seed, Math.max(perJob, perSlip)));
  /** By job. */
  const alarms = jobs.map(() => new Map<string, number>());
  let cleanDisagreements = 0;
  for (const [job, { simulate }] of opened.entries())
    for (let trial = 0; trial < perJob; trial++) {
      const report = reportOf(simulate(trial));
      const own = alarms[job] as Map<string, number>;
      for (const rule of new Set(report.findings.map((finding) => finding.rule))) own.set(rule, (own.get(rule) ?? 0) + 1);
      if (report.disagreement !== undefined) cleanDisagreements++;
    }
  const explanations: ExplanationRate[] = [];
  const bySetup = slips.map(({ rule, job, explanation, make, cleanJobs = jobs.map((_, i) => i) }): RuleRate => {
    let [found, disagreed, first, amongTwo] = [0, 0, 0, 0];
    for (let trial = 0; trial < perSlip; trial++) {
      const report = reportOf(make((opened[job] as SimulatedJob).simulate(trial)));
      if (report.findings.some((finding) => finding.rule === rule)) found++;
      if (report.disagreement !== undefined) disagreed++;
      const isIt = (i: number) => {
        const named = report.disagreement?.explanations[i]?.slips;
        return named?.length === 1 && named[0]?.at === explanation;
      };
      if (isIt(0)) first++;
      if (isIt(0) || isIt(1)) amongTwo++;
    }
    if (explanation !== undefined) explanations.push({ slip: rule, setups: perSlip, disagreed, first, amongTwo });
    return {
      rule,
      looksAt: undefined,
      stated: ratingOf(rule),
      clean: perJob * cleanJobs.length,
      falseAlarms: cleanJobs.reduce((sum, each) => sum + (alarms[each]?.get(rule) ?? 0), 0),
      slipped: perSlip,
      found,
      from: "setups",
    };
  });
  const random = generator(seed);
  const byFact = facts.map(({ rule, looksAt, make }): RuleRate => {
    const count = (times: number, slipped: boolean) =>
      Array.from({ length: times }, () =>
        slipRules.find(({ name }) => name === rule)?.look({ unit: "mm", ...make(random, slipped) }),
      ).filter((answer) => answer?.kind === "found").length;
    return {
      rule,
      looksAt,
      stated: ratingOf(rule),
      clean: cleanSetups,
      falseAlarms: count(cleanSetups, false),
      slipped: perSlip,
      found: count(perSlip, true),
      from: "facts",
    };
  });
  const order = slipRules.map(({ name }) => name);
  const rules = [...bySetup, ...byFact].sort((a, b) => order.indexOf(a.rule) - order.indexOf(b.rule));
  return { rules, explanations, cleanSetups: perJob * jobs.length, cleanDisagreements };
}

function ratingOf(rule: string): number {
  return slipRules.find(({ name }) => name === rule)?.falseAlarmRate as number;
}

/** The table as Markdown. */
export function ratesTable({ rules, explanations, cleanSetups, cleanDisagreements }: SlipRates): string {
  const percent = (part: number, whole: number) => `${((100 * part) / whole).toFixed(2)} %`;
  const aligned = (rows: readonly (readonly string[])[]) => {
    const widths = (rows[0] as readonly string[]).map((_, i) => Math.max(...rows.map((each) => (each[i] as string).length)));
    const line = (cells: readonly string[]) => `| ${cells.map((cell, i) => cell.padEnd(widths[i] as number)).join(" | ")} |`;
    const [head, ...body] = rows.map(line);
    return [head, `| ${widths.map((width) => "-".repeat(width)).join(" | ")} |`, ...body].join("\n");
  };
  return [
    aligned([
      ["rule", "false alarms", "stated", "found", "from"],
      ...rules.map(({ rule, looksAt, stated, clean, falseAlarms, slipped, found, from }) => [
        looksAt === undefined ? rule : `${rule}: ${looksAt}`,
        `${falseAlarms} of ${clean}, ${percent(falseAlarms, clean)}`,
        `${Number((100 * stated).toPrecision(3))} %`,
        `${found} of ${slipped}, ${percent(found, slipped)}`,
        from,
      ]),
    ]),
    "",
    aligned([
      ["slip", "evidence called in disagreement", "right explanation first", "among the first two"],
      ...explanations.map(({ slip, setups, disagreed, first, amongTwo }) => [
        slip,
        `${disagreed} of ${setups}`,
        `${first} of ${setups}`,
        `${amongTwo} of ${setups}`,
      ]),
      ["none", `${cleanDisagreements} of ${cleanSetups}, stated ${100 * disagreementRate} %`, "", ""],
    ]),
  ].join("\n");
}
