import { describe, expect, it } from "vitest";
import { documentText } from "../../../lib/document/documentText.ts";
import { longestDocument } from "../../../lib/document/parseDocument.ts";
import { fileNameOf, readSetupFile, refusalInWords } from "../../../notebooks/pages/files.ts";
import { demoDocument } from "../../../notebooks/pages/firstJob.ts";
import { openKeeper } from "../../../notebooks/pages/keeper.ts";

const file = (text: string, size = text.length) => ({ name: "setup.json", size, text: async () => text }) as File;

describe("readSetupFile(file)", () => {
  it("reads what a setup is saved as", async () => {
    expect(await readSetupFile(file(documentText(demoDocument())))).toEqual({ ok: true, value: demoDocument() });
  });

  it("refuses a file that is too large before it reads it", async () => {
    const unread = { name: "film.json", size: longestDocument + 1, text: () => Promise.reject(new Error("read")) } as unknown as File;
    expect(await readSetupFile(unread)).toMatchObject({ ok: false, problems: [{ what: "the file is larger than any setup" }] });
  });
});

it("refusalInWords(name, problems) tells the places and the reasons, and that the open setup stays", async () => {
  const text = JSON.stringify({ ...demoDocument(), unit: "furlong", touches: [{ ...demoDocument().touches[0], travelling: "up" }] });
  const read = await readSetupFile(file(text));
  const words = read.ok ? "" : refusalInWords("broken.json", read.problems);
  expect(words).toContain("“broken.json” was not opened; the open setup stays as it is.");
  expect(words).toMatch(/Unit: .*expected .*mm/i);
  expect(words).toContain("Touches.b1.travelling: ");
});

it("openKeeper(onFailure) keeps setups in memory where there is no storage, and says so", async () => {
  const told: string[] = [];
  const keeper = await openKeeper((why) => told.push(why));
  expect(told).toHaveLength(1);
  expect(keeper.failure).toBe(told[0]);
  const setup = (id: string, changed: number) => ({ id, title: id, text: "{}", changed, position: 0, stamp: id });
  for (const each of [setup("a", 1), setup("b", 2)])
    expect(await keeper.write({ setup: each, steps: [], from: 0, to: 0, after: undefined })).toEqual({ kind: "kept", madeRoom: 0 });
  expect(await keeper.read("a")).toEqual({ setup: setup("a", 1), steps: [] });
  expect((await keeper.list()).map(({ id }) => id)).toEqual(["b", "a"]);
});

it("fileNameOf(title) keeps long titles apart that differ in their last words, and cuts no word or letter", () => {
  const title = (view: string) => `How the tolerance is used: bearing seat to mounting face, bore turned to front, ${view}`;
  const [one, other] = [fileNameOf(title("this part")), fileNameOf(title("the batch"))];
  expect(one).toMatch(/^How-the-tolerance-is-used--.*-front-this-part$/);
  expect(other).toMatch(/-front-the-batch$/);
  const words = new Set(title("this part").match(/[a-z]+/gi));
  expect(one.split(/-+/).filter((word) => !words.has(word))).toEqual([]);
  expect(Math.max(one.length, other.length)).toBeLessThanOrEqual(60);
  // A letter that takes two units of UTF-16.
  expect(Array.from(fileNameOf("\u{10400}".repeat(100))).every((letter) => letter === "-" || letter === "\u{10400}")).toBe(true);
  expect([fileNameOf("Bearing cover, second side"), fileNameOf(" ?! ")]).toEqual(["Bearing-cover-second-side", "setup"]);
});
