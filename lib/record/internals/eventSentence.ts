import { capitalise } from "../../base/capitalise.ts";
import type { VoidingEvent } from "../../decision/eventsSince.ts";

/** What has become of the zero since an event. */
export function eventSentence({ name, verifiedSince, voids, standing }: Omit<VoidingEvent, "at">, unverified = "unverified"): string {
  return verifiedSince ? `Since "${name}" ${standing}.` : `${capitalise(unverified)} since "${name}": ${voids}; ${standing}.`;
}
