import { ContactSources } from "../contacts/contactSources.ts";
import { makeContacts } from "../contacts/makeContacts.ts";
import { halfLostMotion } from "../equipment/halfLostMotion.ts";
import { leverCosine } from "../equipment/leverCosine.ts";
import { offsetRounding } from "../equipment/offsetRounding.ts";
import { positioningPerLength } from "../equipment/positioning.ts";
import { squarenessAbout } from "../equipment/squareness.ts";
import { lengthOf, radiusOf, thicknessOf } from "../equipment/toolSources.ts";
import { isCellSource } from "../ledger/cellSource.ts";
import { cutterDeflection } from "../part/cutterDeflection.ts";
import type { LocatedPart } from "../part/locateElements.ts";
import { outOfSquareAbout } from "../part/outOfSquare.ts";
import { scatterOfCut } from "../part/scatterOfCut.ts";
import { type RelatedSources, relateSources } from "../uncertainty/relateSources.ts";
import { SourceBook } from "../uncertainty/sourceBook.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { partSizes } from "./partSizes.ts";
import type { Setup } from "./setup.ts";
import { sourcesOfRow } from "./sourcesOfRow.ts";

/**
 * The sources of a setup that go together, made from each other. Sources are made where they are asked for, one by one, and what goes together must
 * be known at once: so everything is asked for once before.
 */
export function relateSetup(stated: Setup, located: LocatedPart): RelatedSources & { readonly made: ReadonlyMap<string, Uncertain> } {
  // What cannot be used of the correlations does not keep the others from being looked at.
  const setup = { ...stated, unread: new Set([...stated.unread].filter((place) => place !== "correlations")) };
  const { suppositions } = setup.sources;
  const exact = [...(suppositions ?? [])].flatMap(([id, { doubt }]) => (doubt === 0 ? [id] : []));
  const book = new SourceBook(setup.sources);
  const { problems } = makeContacts({ ...setup, located }, book);
  askForOthers(setup, located, book);
  const { made } = book;
  const missed = missedRows([...setup.unread, ...problems.map(({ at }) => at)]);
  // Nothing rests on what cannot be made, and why it cannot be made is told at its row.
  const { cellDoubts } = setup;
  const isMissed = (id: string) =>
    isCellSource(id) ? !cellDoubts.has(id) : !made.has(id) && missed.some((prefix) => id.startsWith(prefix));
  const relations = setup.relations.filter(({ one, other }) => !isMissed(one) && !isMissed(other));
  const doubts = [...cellDoubts];
  const all = new Map([...made, ...doubts.map(([id, { alone }]) => [id, alone] as const)]);
  const before = new Map(doubts.map(([id, { value }]) => [id, value]));
  return { ...relateSources(relations, all, new Set(exact), { before }), made };
}

/** How the sources of rows are called that could not be read or used. */
function missedRows(places: readonly string[]): string[] {
  return places.flatMap((place) => {
    const [, table = "", row = ""] = /^(part\.[^.]+|[^.]+)\.(.*?)(?:\.[^.]*)?$/s.exec(place) ?? [];
    // A name may have points of its own.
    const names = [row, place.slice(table.length + 1)];
    return names.flatMap((name) => sourcesOfRow(table, name) ?? []);
  });
}

/** Asks for every source that belongs to no touch: a tool that touches nothing yet can have something in common with one that does. */
function askForOthers(setup: Setup, located: LocatedPart, book: SourceBook): void {
  partSizes(setup.part, located, book);
  const sources = new ContactSources(setup.machine, setup.touches, new Map(), book);
  for (const tool of setup.tools) {
    if (tool.radius !== undefined) radiusOf(tool, tool.radius, book);
    if (tool.length !== undefined) lengthOf(tool, tool.length, book);
    leverCosine(tool, book);
    sources.askForTool(tool);
  }
  for (const spacer of setup.spacers) thicknessOf(spacer, book);
  for (const element of setup.part.elements) sources.askForFace(element);
  for (const axis of [0, 1, 2] as const) {
    for (const make of [halfLostMotion, positioningPerLength, squarenessAbout, offsetRounding]) make(setup.machine, axis, book);
    for (const element of setup.part.elements) {
      scatterOfCut(element, axis, book);
      cutterDeflection(element, axis, book);
      outOfSquareAbout(element, axis, book);
    }
  }
}
