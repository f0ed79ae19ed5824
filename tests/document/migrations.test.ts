import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { currentVersion } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";

const samples = new URL("./samples/", import.meta.url);

/** Documents as the program of that version saved them, by version. */
const saved = readdirSync(samples).flatMap((folder) =>
  readdirSync(new URL(`${folder}/`, samples)).map((name) => ({
    version: Number(/^version(\d+)$/.exec(folder)?.[1]),
    name,
    text: readFileSync(new URL(`${folder}/${name}`, samples), "utf8"),
  })),
);

it("there are samples of every version", () => {
  const versions = new Set(saved.map(({ version }) => version));
  expect([...versions].sort()).toEqual(Array.from({ length: currentVersion }, (_, i) => i + 1));
});

describe.each(saved)("$name of version $version", ({ version, text }) => {
  it("is read as the newest version, with every entry as it was typed", () => {
    const { version: written, ...typed } = JSON.parse(text);
    expect(written).toBe(version);
    const parsed = parseDocument(text);
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
    expect(parsed.value.version).toBe(currentVersion);
    // Entries that were left out have got their defaults; none that was there has changed.
    expect(parsed.value).toMatchObject(typed);
  });
});

// X, Y, Z of the zeros as the program of version 1 printed them (its own output kept, so: unchanged, not proven right here).
it("a document of version 1 gives the zero that it gave then", () => {
  const text = saved.find(({ version, name }) => version === 1 && name === "bearingCover.json")?.text ?? "";
  const parsed = parseDocument(text);
  const chosen = parsed.ok ? evaluateSetup(parsed.value).strategies.find(({ id }) => id === parsed.value.chosen)?.evaluation : undefined;
  if (!chosen?.ok) throw new Error("the chosen strategy has no results");
  const zero = chosen.value.zero.map((axis) => (axis.ok ? axis.value.value : Number.NaN));
  expect(zero.map((value) => value.toFixed(4))).toEqual(["-318.3995", "-176.9010", "-284.6005"]);
});

it("a document of a newer version is refused at its version", () => {
  const told = parseDocument(JSON.stringify({ format: "datumbook", version: currentVersion + 1 }));
  expect(told).toMatchObject({ ok: false, problems: [{ at: "version", what: "this setup was saved by a newer Datumbook" }] });
});

it("what version 1 has at a wrong place is refused at that place, in words of the newest version", () => {
  const told = parseDocument(JSON.stringify({ ...JSON.parse(saved[0]?.text ?? ""), version: 1, touches: "none" }));
  expect(told).toMatchObject({ ok: false, problems: [{ at: "touches", expected: "a list" }] });
});
