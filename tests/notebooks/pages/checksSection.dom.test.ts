import { afterEach, expect, it, vi } from "vitest";
import { ChecksSection } from "../../../notebooks/pages/checksSection.ts";
import { cover } from "../../gallery/documents.ts";
import { sheetResultsOf } from "../../support/sheetResults.ts";

afterEach(() => {
  vi.unstubAllGlobals();
});

const resultsOfCover = () => sheetResultsOf(cover, "thisPart");

it("what stands there is of an earlier entry until its own part is worked out anew, and nothing is where there are no results", () => {
  const idle: (() => void)[] = [];
  vi.stubGlobal("requestIdleCallback", (work: () => void) => idle.push(work));
  const section = new ChecksSection({ edit: () => undefined, say: () => undefined, goTo: () => undefined });
  const told = () => [section.element, section.findings].map((element) => [element.dataset["earlier"], element.getAttribute("aria-busy")]);
  const [waits, done] = [
    ["true", "true"],
    [undefined, null],
  ];

  section.show(resultsOfCover());
  expect(told()).toEqual([waits, waits]);
  idle.shift()?.();
  expect(told()).toEqual([done, waits]);
  idle.shift()?.();
  expect(told()).toEqual([done, done]);

  // Work of the entry before brings nothing any more, and ends nothing.
  section.show(resultsOfCover());
  section.show(resultsOfCover());
  for (const work of idle.splice(0, 2)) work();
  expect(told()).toEqual([waits, waits]);
  section.show(undefined);
  expect(told()).toEqual([done, done]);
  for (const work of idle.splice(0)) work();
  expect(section.element.textContent).not.toContain("fits within its doubts");
});
