import { type DBSchema, type IDBPDatabase, openDB } from "idb";

/** A setup as the browser keeps it between visits: the text of its document, unfinished entries and all. */
export interface KeptSetup {
  readonly id: string;
  readonly text: string;
  /** When it was last changed, ms since 1970. */
  readonly changed: number;
}

/** Keeps setups so that they outlast a reload. */
export interface Keeper {
  /** Why nothing outlasts this page; undefined where it does. */
  readonly failure: string | undefined;
  read(id: string): Promise<KeptSetup | undefined>;
  latest(): Promise<KeptSetup | undefined>;
  /** Keeps the setup; of several calls in a row the last counts. Never rejects: trouble is told to `onFailure`. */
  keep(setup: KeptSetup): void;
}

interface KeeperSchema extends DBSchema {
  setups: { key: string; value: KeptSetup; indexes: { changed: number } };
}

/** All pages opened from files share one store, so that the name must be nobody else's. */
const databaseName = "datumbook-page";
/** Older setups make room: this many are kept. */
const mostKept = 20;

/** Where nothing can be stored (storage switched off, full, or a private window) setups are kept in memory, and `onFailure` says so. */
export async function openKeeper(onFailure: (why: string) => void): Promise<Keeper> {
  try {
    const database = await openDB<KeeperSchema>(databaseName, 1, {
      upgrade: (upgraded) => void upgraded.createObjectStore("setups", { keyPath: "id" }).createIndex("changed", "changed"),
    });
    await makeRoom(database);
    return new DatabaseKeeper(database, onFailure);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    onFailure(why);
    return memoryKeeper(why);
  }
}

class DatabaseKeeper implements Keeper {
  failure: string | undefined;
  private readonly database: IDBPDatabase<KeeperSchema>;
  private readonly onFailure: (why: string) => void;
  private waiting: KeptSetup | undefined;
  private isWriting = false;

  constructor(database: IDBPDatabase<KeeperSchema>, onFailure: (why: string) => void) {
    this.database = database;
    this.onFailure = onFailure;
  }

  read(id: string): Promise<KeptSetup | undefined> {
    return this.database.get("setups", id);
  }

  async latest(): Promise<KeptSetup | undefined> {
    const cursor = await this.database.transaction("setups").store.index("changed").openCursor(null, "prev");
    return cursor?.value;
  }

  keep(setup: KeptSetup): void {
    this.waiting = setup;
    if (!this.isWriting) void this.write();
  }

  private async write(): Promise<void> {
    this.isWriting = true;
    try {
      while (this.waiting !== undefined) {
        const setup = this.waiting;
        this.waiting = undefined;
        await this.database.put("setups", setup);
      }
    } catch (error) {
      this.failure = error instanceof Error ? error.message : String(error);
      this.onFailure(this.failure);
    } finally {
      this.isWriting = false;
    }
  }
}

async function makeRoom(database: IDBPDatabase<KeeperSchema>): Promise<void> {
  const keys = await database.getAllKeysFromIndex("setups", "changed");
  for (const key of keys.slice(0, Math.max(0, keys.length - mostKept))) await database.delete("setups", key);
}

function memoryKeeper(failure: string): Keeper {
  const kept = new Map<string, KeptSetup>();
  return {
    failure,
    read: async (id) => kept.get(id),
    latest: async () => [...kept.values()].sort((a, b) => b.changed - a.changed)[0],
    keep: (setup) => void kept.set(setup.id, setup),
  };
}
