import { messageOf } from "../../lib/base/messageOf.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { loadFigures } from "../figures/loadFigures.ts";
import { html } from "../inputs/html.ts";
import { Autosave, type AutosaveStart } from "./autosave.ts";
import { createCommands, type KeptEntry } from "./commands.ts";
import { type DocumentHistory, startHistory } from "./documentHistory.ts";
import { readSetupFile, refusalInWords } from "./files.ts";
import { demoDocument } from "./firstJob.ts";
import { GuidePanel } from "./guidePanel.ts";
import { historyFrom, timelineOf } from "./historyRecord.ts";
import { claimSetup, type Keeper, type KeptSetup, type KeptWhole, openKeeper, openSetups } from "./keeper.ts";
import { canPickFile, type FileOfSetup, type KnownFile, pickSetupFile, type SavingOutcome, saveSetup, saveSetupAs } from "./setupFile.ts";
import { Sheet } from "./sheet.ts";
import { tabMemory } from "./tabMemory.ts";

/** Opens the page on the setup that this tab had open, else on the one that was last worked on, else on the demo job. */
export async function openPage(body: HTMLElement): Promise<Sheet> {
  // On their way while the sheet is made, so that nothing moves once it is there; where they do not come, each place for a figure tells.
  loadFigures().catch(() => undefined);
  const early: string[] = [];
  let sheet: Sheet | undefined;
  const warn = (words: string) => {
    if (sheet === undefined) early.push(words);
    else sheet.warn(words);
  };
  const keeper = await openKeeper((why) =>
    warn(`This browser keeps nothing for this page (${why}): save the setup to a file before you leave.`),
  );
  const { start, history, file, said, trouble, isFirst } = await restore(keeper);
  tabMemory.setOwnSetup(start.id);
  const autosave = new Autosave(keeper, start, { onId: tabMemory.setOwnSetup, onTrouble: warn });
  const desk = new Desk(keeper, autosave, file);
  addEventListener("pagehide", () => tabMemory.leaveBehind(autosave.unwritten()));
  sheet = new Sheet(history.present, {
    history,
    commands: desk.commands,
    guide: desk.guide.element,
    onDocument: (_, edited) => {
      desk.edited(edited);
      autosave.changed(edited);
    },
  });
  desk.sheet = sheet;
  body.append(sheet.element);
  rehearse(sheet);
  if (isFirst) desk.guide.offerWalk();
  if (said !== "") sheet.say(said);
  for (const words of [...early, ...trouble]) sheet.warn(words);
  acceptDroppedFiles(body, desk);
  body.addEventListener("keydown", (event) => {
    // Where nothing has the focus the sheet hears no key, and the browser would take back letters of its own accord.
    if (!event.defaultPrevented) sheet.heed(event);
    if (!(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== "s") return;
    event.preventDefault();
    void desk.save(event.shiftKey);
  });
  return sheet;
}

/**
 * How often the sheet is worked out before anybody types, and for how long together at the most, ms: after some thirty times it is hardly faster any more, and a large
 * job would be kept from its own work. Not before a while, ms: what is out of sight comes first, and whoever begins at once is not to wait.
 */
const rehearsals = { after: 2000, times: 50, together: 500 } as const;

/**
 * A browser compiles well only what has run some times. That is done while it has nothing else to do, so that the first edits of a person are
 * answered as fast as the later ones.
 */
function rehearse(sheet: Sheet): void {
  if (typeof requestIdleCallback !== "function") return;
  let times = 0;
  let together = 0;
  // Whoever works already is not to wait for it.
  const enough = () => {
    times = rehearsals.times;
  };
  for (const kind of ["keydown", "pointerdown", "input"]) document.addEventListener(kind, enough, { once: true, capture: true });
  const again = () => {
    if (times >= rehearsals.times) return;
    const start = performance.now();
    sheet.workOutAgain();
    times += 1;
    // The work itself is done by the time of the next task.
    setTimeout(() => {
      together += performance.now() - start;
      if (times < rehearsals.times && together < rehearsals.together) requestIdleCallback(again);
    });
  };
  setTimeout(() => requestIdleCallback(again), rehearsals.after);
}

interface Restored {
  readonly start: AutosaveStart;
  readonly history: DocumentHistory<SetupDocument>;
  readonly file: FileOfSetup;
  readonly said: string;
  readonly trouble: readonly string[];
  /** Nothing is kept from before: the demo job is open. */
  readonly isFirst: boolean;
}

/**
 * A tab goes on with its own setup. A new one goes on with the setup last worked on; where another tab has that open, or this tab's own (a tab that
 * was duplicated remembers what the first one remembers), it works on a copy, so that two tabs do not write over each other.
 */
async function restore(keeper: Keeper): Promise<Restored> {
  const own = tabMemory.ownSetup();
  const wanted = own ?? (await keeper.list())[0]?.id;
  const claimed = wanted === undefined ? undefined : await claimSetup(wanted);
  const kept = wanted === undefined ? undefined : await wholeOf(wanted, keeper, claimed !== undefined);
  const fresh = async (): Promise<AutosaveStart> => ({ id: (await claimSetup(crypto.randomUUID())) ?? crypto.randomUUID() });
  const demo = {
    history: startHistory(demoDocument()),
    file: { from: 0, known: undefined },
    said: "",
    trouble: [],
    isFirst: kept === undefined,
  };
  if (kept === undefined) return { ...demo, start: claimed === undefined ? await fresh() : { id: claimed } };
  const { setup, steps } = kept;
  const parsed = parseDocument(setup.text);
  // What cannot be read is not written over.
  if (!parsed.ok) {
    const words = `What was kept from the last visit cannot be read. ${refusalInWords(labelOf(setup), parsed.problems)}`;
    return { ...demo, start: await fresh(), trouble: [words] };
  }
  const history = historyFrom(parsed.value, setup.position, steps);
  const file = (await keeper.readFile(setup.id)) ?? demo.file;
  if (claimed === undefined) {
    const said = "This setup is open in another tab as well: this is a copy, and both are kept.";
    return { start: await fresh(), history, file: { ...file, known: undefined }, said, trouble: [], isFirst: false };
  }
  const first = setup.position - history.past.length;
  const timeline = timelineOf(history, { first, states: [history.past[0]?.document ?? history.present], whats: [], position: first });
  const said = own === undefined ? `This is the setup as it was left: ${labelOf(setup)}. “kept” lists all that this browser keeps.` : "";
  return { start: { id: claimed, kept: { timeline, stamp: setup.stamp } }, history, file, said, trouble: [], isFirst: false };
}

/** What was typed just before a reload may be in the tab's own memory alone. */
async function wholeOf(id: string, keeper: Keeper, isOwn: boolean): Promise<KeptWhole | undefined> {
  const kept = await keeper.read(id);
  const left = isOwn ? tabMemory.leftBehind(id) : undefined;
  if (left === undefined || (kept !== undefined && left.setup.changed <= kept.setup.changed)) return kept;
  await keeper.write({ ...left, after: kept?.setup.stamp });
  return (await keeper.read(id)) ?? { setup: left.setup, steps: left.steps };
}

function labelOf({ title, changed }: KeptSetup): string {
  return `${title === "" ? "setup" : title}, ${new Date(changed).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" })}`;
}

/** Where setups come from and go to: files, templates, and what the browser keeps. */
class Desk {
  readonly commands: HTMLElement;
  sheet: Sheet | undefined;
  readonly guide = new GuidePanel({
    goTo: (section) => this.opened.goToSection(section),
    examples: async () => {
      const { exampleDocument, exampleNames } = await import("./demo.ts");
      return exampleNames.map((name) => {
        const { title, note } = exampleDocument(name);
        return { title, note, open: () => void this.begin(exampleDocument(name), `example “${title}”`, undefined) };
      });
    },
  });
  private readonly keeper: Keeper;
  private readonly autosave: Autosave;
  private file: FileOfSetup;
  private history: DocumentHistory<SetupDocument> | undefined;

  constructor(keeper: Keeper, autosave: Autosave, file: FileOfSetup) {
    this.keeper = keeper;
    this.autosave = autosave;
    this.file = file;
    const input = fileInput((chosen) => void this.openFile(chosen));
    this.commands = createCommands({
      document: () => this.opened.document,
      open: (document, what) => void this.begin(document, what, undefined),
      openFile: () => (canPickFile() ? void this.pickFile() : input.click()),
      save: () => void this.save(false),
      saveAs: () => void this.save(true),
      undo: () => this.opened.undo(),
      redo: () => this.opened.redo(),
      kept: () => this.kept(),
      goTo: (id) => void this.goTo(id),
      forget: (id) => this.keeper.forget(id),
      takeOutList: async (leave) => (await import("./exchangePanels.ts")).takeOutList(this.opened, leave),
      bringInForm: async (leave) => (await import("./exchangePanels.ts")).bringInForm(this.opened, leave),
      guide: (from) => void this.guide.toggle(from),
      aboutEntry: () => void this.opened.tellOfEntry(),
    });
    this.commands.append(input);
  }

  private get opened(): Sheet {
    if (this.sheet === undefined) throw new Error("The sheet is not there yet.");
    return this.sheet;
  }

  /** Another document on the sheet, in a place of its own; undo brings back what was there. */
  private async begin(document: SetupDocument, what: string, file: KnownFile | undefined): Promise<void> {
    await this.autosave.branch();
    this.opened.open(document, what);
    const from = this.history === undefined ? 0 : this.autosave.positionOf(this.history);
    await this.remember({ from, known: file });
  }

  private async remember(file: FileOfSetup): Promise<void> {
    this.file = file;
    await this.keeper.writeFile(this.autosave.setup, file);
  }

  /** What undo brings back from before the setup was opened must not be saved over its file. */
  edited(history: DocumentHistory<SetupDocument>): void {
    this.history = history;
    if (this.file.known !== undefined && this.autosave.positionOf(history) < this.file.from)
      void this.remember({ from: 0, known: undefined });
  }

  private async pickFile(): Promise<void> {
    try {
      const picked = await pickSetupFile();
      if (picked !== undefined) await this.openFile(picked.file, picked.known);
    } catch (error) {
      this.opened.warn(`The file was not opened: ${messageOf(error)}`);
    }
  }

  async openFile(file: File, known?: KnownFile): Promise<void> {
    const read = await readSetupFile(file);
    if (!read.ok) {
      this.opened.warn(refusalInWords(file.name, read.problems));
      return;
    }
    await this.begin(read.value, `opening of ${file.name}`, known);
    this.opened.say(`“${file.name}” is open; undo brings back what was open before.`);
  }

  async save(isNew: boolean): Promise<void> {
    const { document } = this.opened;
    try {
      await this.told(await (isNew ? saveSetupAs(document) : saveSetup(document, this.file.known)));
    } catch (error) {
      this.opened.warn(`The setup was not saved: ${messageOf(error)}`);
    }
  }

  private async told(outcome: SavingOutcome): Promise<void> {
    if (outcome.kind === "saved") {
      this.opened.say(`Saved as “${outcome.name}”.`);
      await this.remember({ ...this.file, known: outcome.file });
    } else if (outcome.kind === "conflict") {
      this.opened.warn(
        `“${outcome.name}” was changed by somebody else since it was opened or saved here, and was not written over. “save as” under another name keeps both.`,
      );
    }
  }

  private async kept(): Promise<KeptEntry[]> {
    await this.autosave.flush();
    const [setups, open] = await Promise.all([this.keeper.list(), openSetups()]);
    const here = this.autosave.setup;
    return setups.map((setup) => ({ setup, where: setup.id === here ? "here" : open.has(setup.id) ? "in another tab" : "put away" }));
  }

  /** The page begins anew with the other setup, so that it comes with its whole history. */
  private async goTo(id: string): Promise<void> {
    await this.autosave.flush();
    tabMemory.setOwnSetup(id);
    location.reload();
  }
}

function fileInput(onFile: (file: File) => void): HTMLInputElement {
  const input = html("input", {
    type: "file",
    accept: ".json,application/json",
    class: "unseen",
    "aria-label": "Setup file to open",
    tabindex: -1,
  });
  input.addEventListener("change", () => {
    const [chosen] = input.files ?? [];
    // The same file may be chosen again after it was mended.
    if (chosen !== undefined) onFile(chosen);
    input.value = "";
  });
  return input;
}

function acceptDroppedFiles(body: HTMLElement, desk: Desk): void {
  body.addEventListener("dragover", (event) => event.preventDefault());
  body.addEventListener("drop", (event) => {
    const file = event.dataTransfer?.files[0];
    if (file === undefined) return;
    event.preventDefault();
    void desk.openFile(file);
  });
}
