import { newDocument } from "../../lib/document/newDocument.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { html } from "../inputs/html.ts";
import { demoDocument } from "./demo.ts";
import { readSetupFile, refusalInWords, saveSetupFile } from "./files.ts";
import { type Keeper, type KeptSetup, openKeeper } from "./keeper.ts";
import { Sheet } from "./sheet.ts";
import { tabMemory } from "./tabMemory.ts";

/** Opens the page on the setup that this tab had open, else on the one that was last worked on, else on the demo job. */
export async function openPage(body: HTMLElement): Promise<Sheet> {
  const failures: string[] = [];
  let sheet: Sheet | undefined;
  const keeper = await openKeeper((why) => {
    const words = `This browser keeps nothing for this page (${why}): save the setup to a file before you leave.`;
    if (sheet === undefined) failures.push(words);
    else sheet.warn(words);
  });
  const { id, document, trouble } = await restore(keeper);
  let last: { readonly document: SetupDocument; readonly changed: number } | undefined;
  const asKept = ({ document: kept, changed }: NonNullable<typeof last>): KeptSetup => ({ id, text: JSON.stringify(kept), changed });
  addEventListener("pagehide", () => last && tabMemory.leaveBehind(asKept(last)));
  sheet = new Sheet(document, {
    commands: createCommands(() => sheet as Sheet),
    onDocument: (edited) => {
      const now = { document: edited, changed: Date.now() };
      last = now;
      // After the results of the edit; of several edits in a row the last is kept.
      setTimeout(() => last === now && keeper.keep(asKept(now)));
    },
  });
  body.append(sheet.element);
  rehearse(sheet);
  for (const words of [...failures, ...trouble]) sheet.warn(words);
  acceptDroppedFiles(body, sheet);
  return sheet;
}

/** How often the sheet is worked out before anybody types. */
const rehearsals = 100;

/**
 * A browser compiles well only what has run some times. That is done while it has nothing else to do, so that the first edits of a person are
 * answered as fast as the later ones.
 */
function rehearse(sheet: Sheet): void {
  if (typeof requestIdleCallback !== "function") return;
  let left = rehearsals;
  const again = () => {
    sheet.workOutAgain();
    left -= 1;
    if (left > 0) requestIdleCallback(again);
  };
  requestIdleCallback(again);
}

interface Restored {
  readonly id: string;
  readonly document: SetupDocument;
  readonly trouble: readonly string[];
}

async function restore(keeper: Keeper): Promise<Restored> {
  const own = await claimed(tabMemory.ownSetup());
  const kept = own === undefined ? await copied(tabMemory.ownSetup(), keeper) : await ownKept(own, keeper);
  // A new tab works on a copy, so that two tabs do not write over each other.
  const id = own ?? (await claimed(crypto.randomUUID())) ?? crypto.randomUUID();
  tabMemory.setOwnSetup(id);
  if (kept === undefined) return { id, document: demoDocument(), trouble: [] };
  const parsed = parseDocument(kept.text);
  if (parsed.ok) return { id, document: parsed.value, trouble: [] };
  // What cannot be read is not written over.
  const fresh = (await claimed(crypto.randomUUID())) ?? crypto.randomUUID();
  tabMemory.setOwnSetup(fresh);
  return {
    id: fresh,
    document: demoDocument(),
    trouble: [`What was kept from the last visit cannot be read. ${refusalInWords(labelOf(kept), parsed.problems)}`],
  };
}

/** The setup as this tab's own, or nothing while another tab has it: a tab that was duplicated remembers what the first one remembers. */
async function claimed(id: string | undefined): Promise<string | undefined> {
  if (id === undefined || !("locks" in navigator)) return id;
  return new Promise((resolve) => {
    void navigator.locks.request(`datumbook-setup ${id}`, { ifAvailable: true }, (lock) => {
      resolve(lock === null ? undefined : id);
      // Held for as long as the page is open.
      return lock === null ? undefined : new Promise(() => {});
    });
  });
}

/** What a tab without a setup of its own begins with: that of the tab that it was duplicated from, else the one last worked on. */
async function copied(from: string | undefined, keeper: Keeper): Promise<KeptSetup | undefined> {
  const original = from === undefined ? undefined : await ownKept(from, keeper);
  return original ?? (await keeper.latest().catch(() => undefined));
}

/** What was typed just before a reload may be in the tab's own memory alone. */
async function ownKept(id: string, keeper: Keeper): Promise<KeptSetup | undefined> {
  const kept = await keeper.read(id).catch(() => undefined);
  const left = tabMemory.leftBehind(id);
  return left !== undefined && (kept === undefined || left.changed > kept.changed) ? left : kept;
}

function labelOf({ changed }: KeptSetup): string {
  return `setup of ${new Date(changed).toLocaleString()}`;
}

function createCommands(sheet: () => Sheet): HTMLElement {
  const file = html("input", {
    type: "file",
    accept: ".json,application/json",
    class: "unseen",
    "aria-label": "Setup file to open",
    tabindex: -1,
  });
  file.addEventListener("change", () => {
    const [chosen] = file.files ?? [];
    // The same file may be chosen again after it was mended.
    if (chosen !== undefined) void openFile(chosen, sheet());
    file.value = "";
  });
  return html(
    "nav",
    { class: "commands", "aria-label": "Setup" },
    command("new", () => sheet().open(newDocument(sheet().document.unit), "new setup")),
    command("open", () => file.click()),
    command("save", () => void save(sheet())),
    command("demo", () => sheet().open(demoDocument(), "demo job")),
    command("undo", () => sheet().undo(), "Control+Z"),
    command("redo", () => sheet().redo(), "Control+Y"),
    command("print", () => window.print()),
    file,
  );
}

function command(name: string, act: () => void, shortcut?: string): HTMLElement {
  const button = html("button", { type: "button", class: "command", "aria-keyshortcuts": shortcut }, name);
  button.addEventListener("click", act);
  return button;
}

async function openFile(file: File, sheet: Sheet): Promise<void> {
  const read = await readSetupFile(file);
  if (!read.ok) {
    sheet.warn(refusalInWords(file.name, read.problems));
    return;
  }
  sheet.open(read.value, `opening of ${file.name}`);
  sheet.say(`“${file.name}” is open; undo brings back what was open before.`);
}

async function save(sheet: Sheet): Promise<void> {
  try {
    const name = await saveSetupFile(sheet.document);
    if (name !== undefined) sheet.say(`Saved as “${name}”.`);
  } catch (error) {
    sheet.warn(`The setup was not saved: ${error instanceof Error ? error.message : String(error)}`);
  }
}

function acceptDroppedFiles(body: HTMLElement, sheet: Sheet): void {
  body.addEventListener("dragover", (event) => event.preventDefault());
  body.addEventListener("drop", (event) => {
    const file = event.dataTransfer?.files[0];
    if (file === undefined) return;
    event.preventDefault();
    void openFile(file, sheet);
  });
}
