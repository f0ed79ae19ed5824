import { expect, it } from "vitest";
import { checkDocument } from "../../../lib/document/parseDocument.ts";
import { Sheet } from "../../../notebooks/pages/sheet.ts";
import blank from "../../acceptance/skewedBlank.json";
import { must } from "../../properties/setups.ts";

// r (1/cos θ - 1) with a radius of 0.1968 in and a turn of 0.142315 degree, by hand.
it("the sheet says of a touch on a turned part what the radius along the axis leaves out of its face", async () => {
  const sheet = new Sheet(must(checkDocument(blank)), { onDocument: () => undefined, commands: document.createElement("nav") });
  document.body.replaceChildren(sheet.element);
  await new Promise((resolve) => sheet.element.addEventListener("settled", resolve, { once: true }));
  document.querySelector<HTMLInputElement>('[aria-label="C1, readings"]')?.focus();
  expect(document.querySelector("#touches")?.textContent).toContain("“face at” is 0.00000061 in short on this turned part");
  sheet.dispose();
});
