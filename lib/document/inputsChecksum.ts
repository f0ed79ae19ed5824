import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import type { SetupDocument } from "./setupDocument.ts";
import { type Input, setupInputs, withoutCalibrations, zeroInputs } from "./setupInputs.ts";

/** The scheme by which checksums are made now; it stands in every record. */
export const checksumScheme = "datumbook inputs 2";

/**
 * SHA-256 (FIPS 180-4) of what the zero of a setup stands on, 64 hexadecimal digits: the same for the same entries in whatever order their keys are saved,
 * another one as soon as any entry differs that the zero, its doubt, the offset to type or a predicted reading follows from (`zeroInputs`). What is logged, checked and
 * noted afterwards changes nothing of it.
 */
export function inputsChecksum(document: SetupDocument): string {
  return checksumOf(canonicalText(checksumScheme, zeroInputs(document)));
}

/** The same setup by schemes that records were made with before, for those that come back. By the first one every entry counted from which any number follows. */
export function earlierChecksums(document: SetupDocument): { readonly scheme: string; readonly checksum: string }[] {
  const scheme = "datumbook inputs 1";
  return [{ scheme, checksum: checksumOf(canonicalText(scheme, withoutCalibrations(setupInputs(document)))) }];
}

/** SHA-256 of a text in UTF-8, 64 hexadecimal digits. */
export function checksumOf(text: string): string {
  return bytesToHex(sha256(utf8ToBytes(text)));
}

/** Behind the name of the scheme, so that it is told apart from any other text, and from another way of writing inputs down. */
function canonicalText(scheme: string, inputs: Input): string {
  return `${scheme}\n${JSON.stringify(sorted(inputs))}`;
}

/** With the keys of every group in the order of their code units, so that the order in which they were saved does not count. */
function sorted(input: Input): Input {
  if (Array.isArray(input)) return input.map(sorted);
  if (typeof input !== "object") return input;
  const entries = Object.entries(input as { readonly [key: string]: Input }).sort(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(entries.map(([key, value]) => [key, sorted(value)]));
}
