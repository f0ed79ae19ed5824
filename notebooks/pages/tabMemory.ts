import type { Writing } from "./keeper.ts";

/**
 * What a tab remembers by itself over a reload: which of the kept setups is its own, and what it had no
 * time to have kept. Where storage is switched off it remembers nothing; the keeper says so to the person.
 */
export const tabMemory = {
  ownSetup: (): string | undefined => read(ownKey),

  setOwnSetup: (id: string): void => write(ownKey, id),

  /** At once, while the page is being left: a database would answer too late. */
  leaveBehind: (writing: Writing | undefined): void => write(lastKey, JSON.stringify(writing ?? null)),

  /** What was left behind, if it is of this setup. */
  leftBehind: (id: string): Writing | undefined => {
    const writing = JSON.parse(read(lastKey) ?? "null") as Writing | null;
    return writing?.setup?.id === id ? writing : undefined;
  },
};

const ownKey = "datumbook-setup";
const lastKey = "datumbook-left-behind";

function read(key: string): string | undefined {
  try {
    return sessionStorage.getItem(key) ?? undefined;
  } catch {
    return undefined;
  }
}

function write(key: string, text: string): void {
  try {
    sessionStorage.setItem(key, text);
  } catch {
    // Nothing is lost that the keeper has: this is only quicker.
  }
}
