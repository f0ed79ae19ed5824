import type { RecordHead } from "../setupRecord.ts";
import { shortChecksum } from "../shortChecksum.ts";

/** The checksum as a sheet carries it, with the scheme by which it was made. */
export function checksumOfHead({ checksum, checksumScheme }: Pick<RecordHead, "checksum" | "checksumScheme">) {
  return {
    algorithm: "SHA-256" as const,
    scheme: checksumScheme,
    of: "inputs that the zero stands on" as const,
    full: checksum,
    short: shortChecksum(checksum),
  };
}
