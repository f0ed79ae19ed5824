import { expect, it } from "vitest";
import { documentChanges } from "../../../lib/document/documentChanges.ts";
import { checkDocument } from "../../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { renameRow, rowsAt, withRows } from "../../../notebooks/pages/documentRows.ts";
import { openJob } from "../../documents/openJob.ts";
import { must } from "../../properties/setups.ts";

const plate = (): SetupDocument => must(checkDocument(openJob("locatedPlate")));

it("a renamed face takes the locators along that it meets", () => {
  const document = plate();
  const index = document.part.elements.findIndex(({ id }) => id === "bottom");
  const renamed = renameRow(document, "part.elements", index, "underside");
  expect(renamed.fixture.locators.map(({ element }) => element)).toEqual(["underside", "underside", "underside", "front", "left"]);
});

it("rows of the fixture are changed where they stand, and nothing else", () => {
  const document = plate();
  const changed = withRows(document, "fixture.clamps", rowsAt(document, "fixture.clamps").slice(0, 1));
  expect(changed.fixture.clamps.map(({ id }) => id)).toEqual(["moving jaw"]);
  expect(changed.fixture.locators).toBe(document.fixture.locators);
  expect(changed.part).toBe(document.part);
});

it("what differs in the fixture is told row by row, once", () => {
  const before = plate();
  const locators = before.fixture.locators.map((each) => (each.id === "pad 1" ? { ...each, heightError: "0.008" } : each));
  const after = { ...before, fixture: { ...before.fixture, locators, wantedError: "0.02" } };
  expect(documentChanges(before, after).changes.flatMap(({ sentences }) => sentences)).toEqual([
    "wanted error of locating from 0.04 mm to 0.02 mm (-0.020 mm)",
    'error of the height of locator "pad 1" from 0.005 mm to 0.008 mm (+0.003 mm)',
  ]);
});

it("a renamed locator takes the touches along that name it, and none of an element by the same name", () => {
  const document: SetupDocument = must(checkDocument(openJob("viceZero")));
  const index = document.fixture.locators.findIndex(({ id }) => id === "jaw");
  const renamed = renameRow(document, "fixture.locators", index, "solid jaw");
  expect(renamed.touches.map(({ element }) => element)).toEqual(["solid jaw", "solid jaw", "stop", "top", "left"]);
  const part = { ...document.part, elements: document.part.elements.map((each) => (each.id === "right" ? { ...each, id: "jaw" } : each)) };
  expect(renameRow({ ...document, part }, "fixture.locators", index, "solid jaw").touches).toEqual(document.touches);
});
