import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { documentText } from "../../lib/document/documentText.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { demoDocument } from "../../notebooks/pages/firstJob.ts";

const demo = readFileSync(new URL("../../notebooks/demo/bearingCover.json", import.meta.url), "utf8");

it("documentText(document) is the text that the document was read from, and reads as the same document", () => {
  expect(documentText(demoDocument())).toBe(demo);
  expect(parseDocument(documentText(demoDocument()))).toEqual({ ok: true, value: demoDocument() });
});

it("documentText(document) has its keys in one order, whatever order they were set in", () => {
  const { touches, title, ...others } = demoDocument();
  const [first, ...rows] = touches;
  const turned = Object.fromEntries(Object.entries(first ?? {}).reverse()) as typeof first;
  expect(documentText({ ...others, touches: turned === undefined ? [] : [turned, ...rows], title })).toBe(demo);
});

it("one entry changed is one line of the text changed", () => {
  const document = demoDocument();
  const [first, ...rows] = document.touches;
  if (first === undefined) throw new Error("the demo has touches");
  const lines = documentText({ ...document, touches: [{ ...first, readings: "-290.400" }, ...rows] }).split("\n");
  const before = demo.split("\n");
  expect(lines.length).toBe(before.length);
  expect(lines.filter((line, i) => line !== before[i])).toEqual(['      "readings": "-290.400",']);
});
