import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import { messageOf } from "../../lib/base/messageOf.ts";
import type { KeptStep, TimelineWrite } from "./historyRecord.ts";
import type { FileOfSetup } from "./setupFile.ts";

/** A setup as the browser keeps it between visits: the text of its document, unfinished entries and all. */
export interface KeptSetup {
  readonly id: string;
  readonly title: string;
  readonly text: string;
  /** When it was last changed, ms since 1970. */
  readonly changed: number;
  /** Number of the state that the text is, among the steps that are kept beside it. */
  readonly position: number;
  /** Another one with every writing: whoever finds one that he has not written knows that somebody else did. */
  readonly stamp: string;
}

/** Everything of a setup that is kept. */
export interface KeptWhole {
  readonly setup: KeptSetup;
  readonly steps: readonly KeptStep[];
}

/** One writing: all of it is kept, or nothing of it and what was kept before. */
export interface Writing extends TimelineWrite {
  readonly setup: KeptSetup;
  /** Stamp of the writing before this one; undefined where there is none. */
  readonly after: string | undefined;
}

/** What came of a writing; `madeRoom` counts the oldest states, of whatever setup, that were let go for it. */
export type WritingOutcome =
  | { readonly kind: "kept"; readonly madeRoom: number }
  | { readonly kind: "conflict" }
  | { readonly kind: "failed"; readonly why: string };

/** Keeps setups, and the steps that led to them, so that they outlast a reload. Nothing here rejects. */
export interface Keeper {
  /** Why nothing outlasts this page; undefined where it does. */
  readonly failure: string | undefined;
  read(id: string): Promise<KeptWhole | undefined>;
  /** Last changed first. */
  list(): Promise<readonly KeptSetup[]>;
  write(writing: Writing): Promise<WritingOutcome>;
  forget(id: string): Promise<void>;
  /** The file that a setup is saved to. */
  readFile(id: string): Promise<FileOfSetup | undefined>;
  writeFile(id: string, file: FileOfSetup): Promise<void>;
}

interface KeeperSchema extends DBSchema {
  setups: { key: string; value: KeptSetup; indexes: { changed: number; stamp: string } };
  steps: { key: [string, number]; value: KeptStep & { setup: string; changed: number }; indexes: { changed: number } };
  files: { key: string; value: FileOfSetup };
}

/** All pages opened from files share one store, so that the name must be nobody else's. */
const databaseName = "datumbook-page";
/** Older setups make room: this many are kept. */
const mostKept = 40;
/** Of all steps, the share that is let go at a time where the disk is full. */
const roomShare = 0.25;

/** Where nothing can be stored (storage switched off, or a private window) setups are kept in memory, and `onFailure` says so. */
export async function openKeeper(onFailure: (why: string) => void): Promise<Keeper> {
  try {
    const database = await openDB<KeeperSchema>(databaseName, 3, {
      upgrade: async (upgraded, from, _, transaction) => {
        if (from < 1) upgraded.createObjectStore("setups", { keyPath: "id" }).createIndex("changed", "changed");
        if (from < 2) {
          upgraded.createObjectStore("steps", { keyPath: ["setup", "number"] }).createIndex("changed", "changed");
          upgraded.createObjectStore("files");
        }
        const setups = transaction.objectStore("setups");
        setups.createIndex("stamp", "stamp");
        // The first version of the store wrote no stamps.
        for (let cursor = await setups.openCursor(); cursor; cursor = await cursor.continue())
          if (cursor.value.stamp === undefined) await cursor.update({ ...cursor.value, stamp: crypto.randomUUID() });
      },
      // A newer page in another tab wants to change the store: it must not wait for this one.
      blocking: (_, __, event) => (event.target as IDBDatabase).close(),
    });
    const keeper = new DatabaseKeeper(database);
    await keeper.forgetOldest();
    return keeper;
  } catch (error) {
    const why = reasonOf(error);
    onFailure(why);
    return memoryKeeper(why);
  }
}

class DatabaseKeeper implements Keeper {
  readonly failure = undefined;
  private readonly database: IDBPDatabase<KeeperSchema>;

  constructor(database: IDBPDatabase<KeeperSchema>) {
    this.database = database;
  }

  async read(id: string): Promise<KeptWhole | undefined> {
    const transaction = this.database.transaction(["setups", "steps"]);
    const [setup, steps] = await Promise.all([
      transaction.objectStore("setups").get(id),
      transaction.objectStore("steps").getAll(stepsOf(id)),
    ]).catch(() => [undefined, []] as const);
    // What the first version of the store kept has neither a position nor a title.
    return setup && { setup: { ...setup, position: setup.position ?? 0, title: setup.title ?? "" }, steps };
  }

  async list(): Promise<readonly KeptSetup[]> {
    const setups = await this.database.getAllFromIndex("setups", "changed").catch(() => []);
    return setups.reverse();
  }

  async write(writing: Writing): Promise<WritingOutcome> {
    let madeRoom = 0;
    for (;;) {
      try {
        return (await this.writeOnce(writing)) ? { kind: "kept", madeRoom } : { kind: "conflict" };
      } catch (error) {
        const room = isFull(error) ? await this.makeRoom(writing.setup.id).catch(() => 0) : 0;
        if (room === 0) return { kind: "failed", why: reasonOf(error) };
        madeRoom += room;
      }
    }
  }

  /** @returns false where somebody else has written the setup since, which then stays as it is */
  private async writeOnce({ setup, after, steps, from, to }: Writing): Promise<boolean> {
    const transaction = this.database.transaction(["setups", "steps"], "readwrite", { durability: "strict" });
    const [setups, kept] = [transaction.objectStore("setups"), transaction.objectStore("steps")];
    const write = async () => {
      // By keys alone: the text of a long setup is not read again with every letter.
      const own = after === undefined ? undefined : await setups.index("stamp").getKey(after);
      if (own !== setup.id && (await setups.count(setup.id)) > 0) return false;
      await Promise.all([
        setups.put(setup),
        kept.delete(IDBKeyRange.bound([setup.id, Number.NEGATIVE_INFINITY], [setup.id, from], false, true)),
        kept.delete(IDBKeyRange.bound([setup.id, to], [setup.id, Number.POSITIVE_INFINITY])),
        ...steps.map((step) => kept.put({ ...step, setup: setup.id, changed: setup.changed })),
      ]);
      return true;
    };
    const [isWritten] = await Promise.all([write(), transaction.done]);
    return isWritten;
  }

  /** Lets the oldest states go, whichever setup they are of; where there are none left, the oldest setup that no tab has open. @returns how many */
  private async makeRoom(own: string): Promise<number> {
    const count = await this.database.count("steps");
    if (count > 0) {
      const transaction = this.database.transaction("steps", "readwrite");
      const oldest = Math.ceil(count * roomShare);
      let left = oldest;
      for (let cursor = await transaction.store.index("changed").openCursor(); cursor && left > 0; cursor = await cursor.continue()) {
        await cursor.delete();
        left -= 1;
      }
      await transaction.done;
      return oldest;
    }
    const open = await openSetups();
    const oldest = (await this.list()).filter(({ id }) => id !== own && !open.has(id)).at(-1);
    if (oldest === undefined) return 0;
    await this.forget(oldest.id);
    return 1;
  }

  async forget(id: string): Promise<void> {
    const transaction = this.database.transaction(["setups", "steps", "files"], "readwrite");
    await Promise.all([
      transaction.objectStore("setups").delete(id),
      transaction.objectStore("steps").delete(stepsOf(id)),
      transaction.objectStore("files").delete(id),
      transaction.done,
    ]).catch(() => {});
  }

  async forgetOldest(): Promise<void> {
    const open = await openSetups();
    for (const { id } of (await this.list()).slice(mostKept)) if (!open.has(id)) await this.forget(id);
  }

  readFile(id: string): Promise<FileOfSetup | undefined> {
    return this.database.get("files", id).catch(() => undefined);
  }

  async writeFile(id: string, file: FileOfSetup): Promise<void> {
    await this.database.put("files", file, id).catch(() => {});
  }
}

function stepsOf(id: string): IDBKeyRange {
  return IDBKeyRange.bound([id, Number.NEGATIVE_INFINITY], [id, Number.POSITIVE_INFINITY]);
}

function isFull(error: unknown): boolean {
  return error instanceof DOMException && error.name === "QuotaExceededError";
}

function reasonOf(error: unknown): string {
  return isFull(error) ? "its storage is full" : messageOf(error);
}

function memoryKeeper(failure: string): Keeper {
  const kept = new Map<string, KeptSetup>();
  const files = new Map<string, FileOfSetup>();
  return {
    failure,
    read: async (id) => {
      const setup = kept.get(id);
      return setup && { setup, steps: [] };
    },
    list: async () => [...kept.values()].sort((a, b) => b.changed - a.changed),
    write: async ({ setup }) => {
      kept.set(setup.id, setup);
      return { kind: "kept", madeRoom: 0 };
    },
    forget: async (id) => void kept.delete(id),
    readFile: async (id) => files.get(id),
    writeFile: async (id, file) => void files.set(id, file),
  };
}

const lockName = (id: string) => `datumbook-setup ${id}`;

/** By setup that this tab has claimed, what ends that. */
const claims = new Map<string, () => void>();

/** The setup as this tab's own until it is released or the page is closed, or nothing while another tab has it. */
export async function claimSetup(id: string): Promise<string | undefined> {
  if (!("locks" in navigator)) return id;
  return new Promise((resolve) => {
    void navigator.locks.request(lockName(id), { ifAvailable: true }, (lock) => {
      resolve(lock === null ? undefined : id);
      return lock === null ? undefined : new Promise<void>((release) => claims.set(id, release));
    });
  });
}

/** This tab works on another setup now. */
export function releaseSetup(id: string): void {
  claims.get(id)?.();
  claims.delete(id);
}

/** The setups that tabs have open, this one included. */
export async function openSetups(): Promise<ReadonlySet<string>> {
  if (!("locks" in navigator)) return new Set();
  const { held = [] } = await navigator.locks.query();
  const prefix = lockName("");
  return new Set(held.flatMap(({ name }) => (name?.startsWith(prefix) ? [name.slice(prefix.length)] : [])));
}
