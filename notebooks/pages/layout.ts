import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { keys } from "../guide/keys.ts";
import { holdFocused } from "../inputs/holdFocused.ts";
import { html, setText } from "../inputs/html.ts";
import type { Place } from "./documentRows.ts";
import type { FigureSlot } from "./figureSlot.ts";
import type { Figures } from "./figures.ts";

const sectionTitles = {
  touches: "Touches",
  strategies: "Strategies",
  demands: "What the drawing demands",
  zero: "Zero and offset",
  offsets: "Offsets",
  checks: "Checks",
  certainty: "How sure the numbers are",
  help: "What would help",
  ledger: "The ledger",
  part: "The part",
  operations: "Operations",
  fixture: "The fixture",
  tools: "Tools",
  machine: "Machine",
  warmUp: "Warming up",
  madeParts: "Made parts",
  job: "The job",
  revisions: "Revisions",
  record: "The record",
  problems: "Open problems",
} as const;
export type SectionName = keyof typeof sectionTitles;

/** The sections in their order on the sheet, with their numbers there. */
export const numberedSections = (Object.keys(sectionTitles) as SectionName[]).map((name, i) => ({
  name,
  number: i + 1,
  title: sectionTitles[name],
}));

export function isSectionName(name: string): name is SectionName {
  return Object.hasOwn(sectionTitles, name);
}

export interface LayoutOptions {
  readonly commands: HTMLElement;
  /** Whether the sheet is a part of another page, which has landmarks of its own. */
  readonly isPart: boolean;
  readonly viewChoice: HTMLElement;
  readonly figures: Figures;
  /** What the cell of the ledger is made of that one stands on; beside the figures, or beneath the ledger. */
  readonly madeOf: HTMLElement;
  /** Says what is only supposed. */
  readonly banner: HTMLElement;
  /** What is still to be stated before there can be a zero. */
  readonly firstSteps: HTMLElement;
  readonly unitChoice: HTMLElement;
  readonly operationChoice: HTMLElement;
  readonly titleBlock: HTMLElement;
  /** Beneath the head of the sheet. */
  readonly guide: HTMLElement | undefined;
  /** The line in which places are sought, and beneath it what was found. */
  readonly finder: readonly [field: HTMLElement, found: HTMLElement];
  readonly sections: { readonly [S in SectionName]: readonly Node[] };
}

export interface Layout {
  readonly element: HTMLElement;
  showJob(document: SetupDocument): void;
  say(words: string): void;
  warn(words: string): void;
  goTo(section: SectionName): void;
  /** Brings the figure into view that belongs to the row that one stands on. */
  follow(place: Place): void;
  /** Brings into view what the cell is made of that one stands on. */
  followMadeOf(): void;
  /** Shows these sections alone; all where nothing is said. */
  showSections(wanted: ReadonlySet<SectionName> | undefined): void;
  isShown(section: SectionName): boolean;
  /** Ends what listens to the window. */
  dispose(): void;
}

/** From this width on the figures stand beside the ledger, px; below it each follows its section. */
const wideFrom = 1180;

/** The drawing sheet: head, ledger, figures, title block. */
export function createLayout(options: LayoutOptions): Layout {
  const { commands, viewChoice, figures, madeOf, banner, firstSteps, unitChoice, operationChoice, titleBlock, sections, finder } = options;
  const job = html("p", { class: "job" });
  const part = html("p", { class: "part" });
  const said = html("p", { class: "said", role: "status" });
  const warnings = html("div", { class: "warnings", role: "alert" });
  const made = new Map(numberedSections.map(({ name, number }) => [name, createSection(name, number, sections[name])]));
  const links = new Map(numberedSections.map(({ name, number }) => [name, contentsLink(name, number, () => made.get(name))]));
  const contents = html("nav", { class: "contents", "aria-label": "Sections" }, ...links.values(), operationChoice, unitChoice, ...finder);
  const head = html("header", {}, html("h1", {}, "Datumbook"), html("div", { class: "heading" }, job, part), commands);
  const aside = html("aside", { "aria-label": "Figures" });
  const ledger = html(options.isPart ? "div" : "main", {}, ...made.values(), html("p", { class: "hint keys" }, keys.join(" ")));
  const begin = html("div", { class: "begin", role: "region", "aria-label": "What is still to be stated" }, firstSteps);
  const zones = html(
    "div",
    { class: "zones", "aria-hidden": "true" },
    ...Array.from({ length: 8 }, (_, i) => html("span", {}, String(i + 1))),
  );
  const element = html(
    options.isPart ? "article" : "div",
    { class: "sheet", "aria-label": options.isPart ? "Datumbook" : undefined },
    zones,
    head,
    contents,
    html("div", { class: "notices" }, warnings, said),
    ...(options.guide === undefined ? [] : [options.guide]),
    banner,
    begin,
    ledger,
    aside,
    titleBlock,
  );
  const stopPlacing = placeFigures(element, aside, made, { figures, madeOf, viewChoice });
  const stopHolding = holdFocused([...made.values()]);

  return {
    element,
    showJob: ({ title, revision, part: { name } }) => {
      setText(job, title === "" ? "Setup without a title" : title);
      setText(part, [name, revision === "" ? "" : `revision ${revision}`].filter((text) => text !== "").join(", "));
    },
    say: (words) => {
      setText(said, words);
    },
    warn: (words) => {
      const close = html("button", { type: "button", class: "act" }, "put away");
      const warning = html("p", {}, `${words} `, close);
      close.addEventListener("click", () => warning.remove());
      warnings.replaceChildren(warning);
    },
    goTo: (name) => {
      const section = made.get(name) as HTMLElement;
      section.scrollIntoView?.({ block: "start" });
      const target = section.querySelector<HTMLElement>("button.link, [data-cell], h2");
      target?.focus({ preventScroll: true });
    },
    follow: (place) => follow(aside, figureOf[place](figures)),
    followMadeOf: () => follow(aside, { element: madeOf }),
    showSections: (wanted) => {
      // They lead into sections of which some may be away.
      begin.hidden = wanted !== undefined;
      for (const [name, section] of made) section.hidden = wanted !== undefined && !wanted.has(name);
      for (const [name, link] of links) link.hidden = wanted !== undefined && !wanted.has(name);
    },
    isShown: (name) => made.get(name)?.hidden === false,
    dispose: () => {
      stopPlacing();
      stopHolding();
    },
  };
}

/** Addresses lead to what the document itself holds; into a shadow root the link goes by itself. */
function contentsLink(name: SectionName, number: number, section: () => HTMLElement | undefined): HTMLElement {
  const balloon = html("span", { class: "balloon", "aria-hidden": "true" }, String(number));
  const link = html("a", { href: `#${name}` }, balloon, sectionTitles[name]);
  link.addEventListener("click", (event) => {
    if (link.getRootNode() === document) return;
    event.preventDefault();
    section()?.scrollIntoView({ block: "start" });
    section()?.querySelector<HTMLElement>("h2")?.focus({ preventScroll: true });
  });
  return link;
}

function createSection(name: SectionName, number: number, content: readonly Node[]): HTMLElement {
  const heading = html(
    "h2",
    { tabindex: -1 },
    html("span", { class: "balloon", "aria-hidden": "true" }, String(number)),
    sectionTitles[name],
  );
  return html("section", { id: name }, heading, ...content);
}

/** Beside the ledger where there is room, otherwise each beneath its section. */
function placeFigures(
  element: HTMLElement,
  aside: HTMLElement,
  sections: ReadonlyMap<SectionName, HTMLElement>,
  { figures, madeOf, viewChoice }: Pick<LayoutOptions, "figures" | "madeOf" | "viewChoice">,
): () => void {
  const { sketch, budget, correlation, stack, comparison, map, chain, fixture, sensitivity } = figures;
  sections.get("strategies")?.append(comparison.element);
  sections.get("fixture")?.append(fixture.element, sensitivity.element);
  sections.get("demands")?.append(map.element);
  const place = (wide: boolean) => {
    if (wide) aside.replaceChildren(viewChoice, sketch.element, budget.element, correlation.element, stack.element, chain.element, madeOf);
    else {
      sections.get("touches")?.append(sketch.element);
      sections.get("strategies")?.insertBefore(viewChoice, comparison.element);
      sections.get("demands")?.append(stack.element, chain.element);
      sections.get("zero")?.append(budget.element, correlation.element);
      sections.get("ledger")?.append(madeOf);
      aside.replaceChildren();
    }
    element.toggleAttribute("data-wide", wide);
  };
  const query = typeof matchMedia === "function" ? matchMedia(`(min-width: ${wideFrom}px)`) : undefined;
  // A sheet within another page may have less room than the window.
  let room = Number.POSITIVE_INFINITY;
  let wide: boolean | undefined;
  const arrange = () => {
    const next = (query?.matches ?? true) && room >= wideFrom;
    if (next === wide) return;
    wide = next;
    place(wide);
  };
  const watcher =
    typeof ResizeObserver === "function"
      ? new ResizeObserver(() => {
          const host = element.getRootNode();
          room = host instanceof ShadowRoot ? host.host.clientWidth : Number.POSITIVE_INFINITY;
          arrange();
        })
      : undefined;
  watcher?.observe(element);
  query?.addEventListener("change", arrange);
  arrange();
  return () => {
    watcher?.disconnect();
    query?.removeEventListener("change", arrange);
  };
}

const figureOf: { readonly [P in Place]: (figures: Figures) => FigureSlot } = {
  touches: ({ sketch }) => sketch,
  strategies: ({ sketch }) => sketch,
  "part.elements": ({ sketch }) => sketch,
  "part.dimensions": ({ chain }) => chain,
  "part.characteristics": ({ stack }) => stack,
  "part.datumSystems": ({ sketch }) => sketch,
  tools: ({ budget }) => budget,
  spacers: ({ budget }) => budget,
  workFrames: ({ sketch }) => sketch,
  correlations: ({ budget }) => budget,
  operations: ({ sketch }) => sketch,
  offsets: ({ budget }) => budget,
  "fixture.locators": ({ fixture }) => fixture,
  "fixture.clamps": ({ fixture }) => fixture,
  "fixture.seatTouches": ({ fixture }) => fixture,
  "madeParts.measured": ({ stack }) => stack,
  "madeParts.corrections": ({ stack }) => stack,
  "warmUp.readings": ({ budget }) => budget,
  nests: ({ budget }) => budget,
  checks: ({ sketch }) => sketch,
  checkMoves: ({ sketch }) => sketch,
  events: ({ sketch }) => sketch,
  slipChances: ({ budget }) => budget,
};

/** Scrolls within the figures alone: the ledger stays where it is. */
function follow(aside: HTMLElement, { element }: Pick<FigureSlot, "element">): void {
  if (!aside.contains(element)) return;
  const [frame, figure] = [aside.getBoundingClientRect(), element.getBoundingClientRect()];
  if (figure.top >= frame.top && figure.bottom <= frame.bottom) return;
  const gentle = !matchMedia("(prefers-reduced-motion: reduce)").matches;
  aside.scrollBy({ top: figure.top - frame.top, behavior: gentle ? "smooth" : "instant" });
}
