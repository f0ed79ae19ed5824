import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { indexOfAxis, turnAboutZ, type Vector } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import { makeContacts } from "../contacts/makeContacts.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import type { CheckTouch } from "../readings/checks.ts";
import type { Touch } from "../readings/touch.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";
import { predictStop, type StopPrediction } from "./predictStop.ts";

/** A check beside what was to be expected of it: of one new reading, however many it has. */
export interface ForeseenCheck extends StopPrediction {
  readonly check: CheckTouch;
  /** Mean of its readings; undefined while there is none. */
  readonly shown: number | undefined;
  /** Reading less prediction, mm; undefined while there is no reading. */
  readonly difference: Uncertain | undefined;
}

/**
 * What the display must show at every check: of any face that there is before this setup, touched or not, with any tool. Sizes that no touch has
 * found vary as the drawing allows. The doubt of the prediction is that of one new reading; that of the difference is of the mean of the check's own.
 */
export function foreseeChecks(checks: readonly CheckTouch[], location: PartLocation): Outcome<ForeseenCheck>[] {
  return checks.map((check): Outcome<ForeseenCheck> => {
    const contact = checkContact(check, location);
    if (!contact.ok) return contact;
    const ofMean = predictStop(contact.value, location, `checks.${check.id}`);
    if (!ofMean.ok) return ofMean;
    const isMean = check.positions.length > 1;
    const ofOne = isMean ? predictStop({ ...contact.value, ...contact.value.next }, location, `checks.${check.id}`) : ofMean;
    if (!ofOne.ok) return ofOne;
    const shown = meanAlong(check, ofOne.value.index);
    return success({
      ...ofOne.value,
      check,
      shown,
      difference: shown === undefined ? undefined : certain(shown).minus(ofMean.value.reading),
    });
  });
}

/** The check as a touch that stops where it should. */
export function checkContact(check: CheckTouch, location: PartLocation): Outcome<Contact> {
  const first = contactOf(check, 0, location);
  if (!first.ok) return first;
  const about = predictStop({ ...first.value, centre: startOf(first.value, location) }, location, `checks.${check.id}`);
  // What grows with the machine's coordinate is taken at the place where the tool will stand.
  return about.ok ? contactOf(check, about.value.reading.value, location) : about;
}

/** The check as a touch that met its surface at this coordinate. */
function contactOf(check: CheckTouch, coordinate: number, { touchable: { setup, located }, book }: PartLocation): Outcome<Contact> {
  const index = indexOfAxis(check.travelling[1] as "X" | "Y" | "Z");
  const place = check.aside.map((value, axis) => (axis === index ? coordinate : value)) as unknown as Touch["positions"][number];
  const touch: Touch = {
    ...check,
    id: `check ${check.id}`,
    positions: Array.from({ length: Math.max(1, check.positions.length) }, () => place),
  };
  // One reading has no repeats of its own: its scatter is that of all repeats of its tool.
  const tools = setup.tools.map((tool) =>
    tool.scatterFrom === "own repeats" ? { ...tool, scatterFrom: "pooled repeats" as const } : tool,
  );
  const { contacts, problems } = makeContacts({ ...setup, tools, touches: [touch], repeated: setup.touches, located }, book);
  const [contact] = contacts;
  if (contact !== undefined) return success(contact);
  return failure(...(problems.length > 0 ? problems.map((problem) => atCheck(problem, check.id)) : [withheldProblem(check.id)]));
}

function atCheck(problem: Problem, id: string): Problem {
  return {
    ...problem,
    at: problem.at.replace(`touches.check ${id}`, `checks.${id}`),
    what: problem.what.replace(`"check ${id}"`, `"${id}"`),
  };
}

function withheldProblem(id: string): Problem {
  return { at: `checks.${id}`, what: "nothing is foreseen while an entry that every result rests on cannot be read" };
}

/** Near where the tool will stop: of a round wall on the side towards which it travels. */
function startOf({ surface, travel, centre }: Contact, { thisPart }: PartLocation): Vector {
  if (surface.kind === "plane" || !thisPart.ok) return centre;
  const { origin, rotation } = thisPart.value;
  const [x, y] = turnAboutZ(surface.axis, rotation.value);
  const side = surface.kind === "bore" ? surface.radius : surface.kind === "boss" ? -surface.radius : 0;
  const middle = [x + origin[0].value, y + origin[1].value, 0];
  return centre.map((value, axis) =>
    travel[axis] === 0 ? value : (middle[axis] as number) + (travel[axis] as number) * side,
  ) as unknown as Vector;
}

function meanAlong({ positions }: CheckTouch, index: 0 | 1 | 2): number | undefined {
  const values = positions.map((position) => position[index] as number);
  const [first] = values;
  return first === undefined ? undefined : first + values.reduce((total, value) => total + (value - first), 0) / values.length;
}
