import type { Setup } from "../datum/setup.ts";
import type { Calibration } from "../equipment/equipment.ts";

/** Told where nothing is stated of a calibration. */
export const calibrationNotStated = "calibration not stated";

/** What is stated of a calibration, without a full stop: `calibrated on 2026-01-12, due again on 2027-01-12, certificate "1203"`. */
export function calibrationInWords({ certificate, calibrated, due, unread }: Calibration): string {
  const told = [
    calibrated === undefined ? "" : `calibrated on ${calibrated.text}`,
    due === undefined ? "" : `due again on ${due.text}`,
    certificate === "" ? "" : `certificate "${certificate}"`,
    unread ? "a day of it cannot be read" : "",
  ].filter((text) => text !== "");
  return told.length === 0 ? calibrationNotStated : told.join(", ");
}

/** A calibration as plain data; null for what is not stated. */
export function plainCalibration({ certificate, calibrated, due }: Calibration) {
  return {
    certificate: certificate === "" ? null : certificate,
    calibratedOn: calibrated?.text ?? null,
    dueAgainOn: due?.text ?? null,
  };
}

/** Of every tool that touched, and of all that lay between tool and face, in the order in which they are listed. */
export function calibrationsOf({ setup: { tools, spacers, touches } }: { readonly setup: Pick<Setup, "tools" | "spacers" | "touches"> }) {
  return [
    ...tools.filter(({ id }) => touches.some(({ tool }) => tool === id)).map((row) => ({ of: "tool" as const, ...row })),
    ...spacers.filter(({ id }) => touches.some(({ spacer }) => spacer === id)).map((row) => ({ of: "spacer" as const, ...row })),
  ].map(({ of, id, calibration }) => ({ of, id, calibration }));
}
