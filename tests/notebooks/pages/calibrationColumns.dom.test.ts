import { expect, it } from "vitest";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { demoDocument } from "../../../notebooks/pages/firstJob.ts";
import { Sheet } from "../../../notebooks/pages/sheet.ts";

const settled = (sheet: Sheet) => new Promise((resolve) => sheet.element.addEventListener("settled", resolve, { once: true }));

/** The demo job with every tool and block stating this of its calibration. */
async function opened(stated: { certificate: string; calibrated: string; due: string }, date = ""): Promise<Sheet> {
  const demo = demoDocument();
  const document_: SetupDocument = {
    ...demo,
    tools: demo.tools.map((row) => ({ ...row, ...stated })),
    spacers: demo.spacers.map((row) => ({ ...row, ...stated })),
    record: { ...demo.record, date },
  };
  const sheet = new Sheet(document_, { onDocument: () => undefined, commands: document.createElement("nav") });
  document.body.replaceChildren(sheet.element);
  await settled(sheet);
  return sheet;
}

const heads = (key: string) => document.querySelectorAll(`th[data-head="${key}"]:not([hidden])`).length;
const told = () =>
  [...document.querySelectorAll(".open-problems, [data-problem], .problem")].map(({ textContent }) => textContent).join(" ");

it("the sheet has columns of calibrations for tools and blocks where any states one, and nowhere else", async () => {
  const bare = await opened({ certificate: "", calibrated: "", due: "" });
  expect(["certificate", "calibrated", "due"].map(heads)).toEqual([0, 0, 0]);
  bare.dispose();
  const sheet = await opened({ certificate: "ring 12", calibrated: "2026-01-02", due: "2027-01-02" });
  expect(["certificate", "calibrated", "due"].map(heads)).toEqual([2, 2, 2]);
  expect(told()).not.toContain("had run out");
  sheet.dispose();
});

it("the sheet says at its entry that a calibration had run out by the day of the record, and what is no day", async () => {
  const sheet = await opened({ certificate: "", calibrated: "2.1.2026", due: "2027-01-02" }, "2027-01-03");
  expect(told()).toContain('the calibration of "probe" had run out: it was due again on 2027-01-02, and the record is dated on 2027-01-03');
  expect(told()).toContain("this is no day");
  sheet.dispose();
});
