import fc from "fast-check";

/**
 * One seed for all property tests, so that a run meets the same cases as any other and a failure is the same on every machine.
 * `npm run hunt` names a fresh one each time.
 */
const propertySeed = Number(process.env["DATUMBOOK_SEED"] ?? 20_260_425);

if (!Number.isInteger(propertySeed)) throw new RangeError(`DATUMBOOK_SEED: expected a whole number, got ${process.env["DATUMBOOK_SEED"]}`);

fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: propertySeed });
