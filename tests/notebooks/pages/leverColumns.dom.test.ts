import { expect, it } from "vitest";
import { demoDocument } from "../../../notebooks/pages/firstJob.ts";
import { Sheet } from "../../../notebooks/pages/sheet.ts";

const settled = (sheet: Sheet) => new Promise((resolve) => sheet.element.addEventListener("settled", resolve, { once: true }));

async function opened(tools: object[]): Promise<Sheet> {
  const demo = demoDocument();
  const blank = { ...(demo.tools[0] as (typeof demo.tools)[number]) };
  const sheet = new Sheet(
    { ...demo, tools: [...demo.tools, ...tools.map((tool) => ({ ...blank, ...tool }))] },
    { onDocument: () => undefined, commands: document.createElement("nav") },
  );
  document.body.replaceChildren(sheet.element);
  await settled(sheet);
  return sheet;
}

const heads = (key: string) => document.querySelectorAll(`th[data-head="${key}"]:not([hidden])`).length;
const entry = (label: string) => document.querySelector<HTMLInputElement>(`[aria-label="${label}"]`);

it("the sheet asks for the lever's angle and for total readings where an indicator is among the tools, and nowhere else", async () => {
  const sheet = await opened([]);
  expect(["leverAngle", "leverAngleUncertainty", "leverAngleLimit", "total.x"].map(heads)).toEqual([0, 0, 0, 0]);
  sheet.dispose();
  await opened([{ id: "dial", kind: "swept indicator" }]);
  expect(["leverAngle", "leverAngleUncertainty", "leverAngleLimit", "total.x"].map(heads)).toEqual([1, 1, 1, 1]);
  expect(entry("dial, lever at, °")).not.toBeNull();
});

it("the sheet says at its entry what is wrong with a lever's angle", async () => {
  const sheet = await opened([{ id: "dial", kind: "swept indicator", leverAngle: "75" }]);
  const told = [...document.querySelectorAll(".open-problems, [data-problem], .problem")].map(({ textContent }) => textContent).join(" ");
  expect(told).toContain("a lever stands at a smaller angle to what it sweeps");
  sheet.dispose();
});
