import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import type { SetupDocument } from "./setupDocument.ts";
import { type Input, setupInputs } from "./setupInputs.ts";

/**
 * SHA-256 (FIPS 180-4) of the inputs of a setup, 64 hexadecimal digits: the same for the same entries in whatever order their keys are saved, another one
 * as soon as any entry differs from which a number can follow. What counts as an input says `setupInputs`.
 */
export function inputsChecksum(document: SetupDocument): string {
  return checksumOf(canonicalText(setupInputs(document)));
}

/** SHA-256 of a text in UTF-8, 64 hexadecimal digits. */
export function checksumOf(text: string): string {
  return bytesToHex(sha256(utf8ToBytes(text)));
}

/** Told apart from any other text, and from another way of writing inputs down, should there ever be one. */
const scheme = "datumbook inputs 1\n";

function canonicalText(inputs: Input): string {
  return `${scheme}${JSON.stringify(sorted(inputs))}`;
}

/** With the keys of every group in the order of their code units, so that the order in which they were saved does not count. */
function sorted(input: Input): Input {
  if (Array.isArray(input)) return input.map(sorted);
  if (typeof input !== "object") return input;
  const entries = Object.entries(input as { readonly [key: string]: Input }).sort(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(entries.map(([key, value]) => [key, sorted(value)]));
}
