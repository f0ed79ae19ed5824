import { documentText } from "../../lib/document/documentText.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { downloadText, fileNameOf } from "./files.ts";

/** A file that the person has named, and how it was when it was last read or written here. */
export interface KnownFile {
  readonly handle: FileHandle;
  readonly lastModified: number;
}

/** From which state on the setup of this tab is the one of its file: what undo brings back from before is another setup. */
export interface FileOfSetup {
  /** Number of that state. */
  readonly from: number;
  /** Undefined while it is in no file. */
  readonly known: KnownFile | undefined;
}

/** What came of saving. */
export type SavingOutcome =
  | { readonly kind: "saved"; readonly name: string; readonly file: KnownFile | undefined }
  | { readonly kind: "turned back" }
  /** Somebody else has written the file: it was left as it is. */
  | { readonly kind: "conflict"; readonly name: string };

/** Into the same file as before where there is one; otherwise where the person says, or among the downloads. */
export async function saveSetup(document: SetupDocument, known: KnownFile | undefined): Promise<SavingOutcome> {
  if (known === undefined) return saveSetupAs(document);
  const { handle } = known;
  if ((await handle.requestPermission?.({ mode: "readwrite" })) === "denied") return { kind: "turned back" };
  const there = await handle.getFile().catch(() => undefined);
  if (there !== undefined && there.lastModified !== known.lastModified) return { kind: "conflict", name: handle.name };
  return { kind: "saved", name: handle.name, file: await writeTo(handle, document) };
}

/** Where the person says, if the browser can ask; otherwise among the downloads. */
export async function saveSetupAs(document: SetupDocument): Promise<SavingOutcome> {
  const name = `${fileNameOf(document.title)}.json`;
  const { showSaveFilePicker } = window as FilePickers;
  if (showSaveFilePicker === undefined) {
    downloadText(name, documentText(document));
    return { kind: "saved", name, file: undefined };
  }
  const handle = await unlessTurnedBack(showSaveFilePicker.call(window, { suggestedName: name, types: fileTypes }));
  return handle === undefined ? { kind: "turned back" } : { kind: "saved", name: handle.name, file: await writeTo(handle, document) };
}

/** Whether the browser can ask for a file and keep hold of it. */
export function canPickFile(): boolean {
  return (window as FilePickers).showOpenFilePicker !== undefined;
}

/** The file that the person chooses; undefined if there was a change of mind. */
export async function pickSetupFile(): Promise<{ readonly file: File; readonly known: KnownFile } | undefined> {
  const picked = await unlessTurnedBack((window as FilePickers).showOpenFilePicker?.call(window, { types: fileTypes, multiple: false }));
  const handle = picked?.[0];
  if (handle === undefined) return undefined;
  const file = await handle.getFile();
  return { file, known: { handle, lastModified: file.lastModified } };
}

async function writeTo(handle: FileHandle, document: SetupDocument): Promise<KnownFile> {
  const stream = await handle.createWritable();
  await stream.write(documentText(document));
  await stream.close();
  return { handle, lastModified: (await handle.getFile()).lastModified };
}

async function unlessTurnedBack<T>(picking: Promise<T> | undefined): Promise<T | undefined> {
  try {
    return await picking;
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") return undefined;
    throw error;
  }
}

const fileTypes = [{ description: "Setup", accept: { "application/json": [".json"] } }];

/** The parts of the File System interfaces that are not in every browser. */
interface FilePickers {
  readonly showSaveFilePicker?: (options: { suggestedName: string; types: typeof fileTypes }) => Promise<FileHandle>;
  readonly showOpenFilePicker?: (options: { types: typeof fileTypes; multiple: boolean }) => Promise<FileHandle[]>;
}

interface FileHandle {
  readonly name: string;
  getFile(): Promise<File>;
  createWritable(): Promise<{ write(text: string): Promise<void>; close(): Promise<void> }>;
  requestPermission?(options: { mode: "readwrite" }): Promise<string>;
}
