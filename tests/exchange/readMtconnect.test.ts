import { describe, expect, it } from "vitest";
import { readOffsetsBack } from "../../lib/exchange/readOffsetsBack.ts";
import { taken, touching, understood, whys } from "./bringing.ts";
import { documentOf } from "./demoEvaluations.ts";

// Names of elements and attributes of MTConnect streams (ANSI/MTC1.4, part 3) from memory; registers by RS274/NGC (NISTIR 6556, 3.5.5).

/** X, Y, Z that a component of this name tells. */
const axis = (name: string, ...samples: readonly string[]) =>
  `<ComponentStream component="Linear" name="${name}" componentId="${name}"><Samples>${samples.join("")}</Samples></ComponentStream>`;
const at = (second: number, value: string, subType = "ACTUAL") =>
  `<Position timestamp="2026-03-14T16:19:0${second}Z" subType="${subType}">${value}</Position>`;
const streams = (...components: readonly string[]) =>
  `<MTConnectStreams><Streams><DeviceStream>${components.join("\n")}</DeviceStream></Streams></MTConnectStreams>`;
const table = (...entries: readonly string[]) =>
  streams(`<ComponentStream><Events><WorkOffsetTable>${entries.join("")}</WorkOffsetTable></Events></ComponentStream>`);
const entry = (key: string, x = "1.5") => `<Entry key="${key}"><Cell key="X">${x}</Cell></Entry>`;

const fourTouches = documentOf({
  ...touching,
  touches: ["+X", "-X", "+Y", "-Z"].map((travelling, i) => ({ id: `t${i}`, element: "end", travelling, tool: "probe" })),
});

describe("positions of a stream", () => {
  it("that were told once each, at their own times, are one position of one touch, and ask", () => {
    const proposal = understood(streams(axis("X", at(1, "-401.46")), axis("Y", at(2, "-170.25")), axis("Z", at(3, "3"))), fourTouches);
    expect(proposal.lines.map(({ becomes, doubt }) => [becomes, doubt])).toEqual([
      ['touch "t0": readings -401.46, at Y -170.25, Z 3', "its axes were told at 3 times: it is where the machine came to stand"],
    ]);
    expect(taken(proposal, fourTouches).touches.map(({ readings }) => readings)).toEqual(["-401.46", "", "", ""]);
  });

  it("that were told at one time ask nothing", () => {
    const { lines } = understood(streams(axis("X", at(1, "-401.46")), axis("Y", at(1, "-170.25"))), fourTouches);
    expect(lines.map(({ doubt }) => doubt)).toEqual([undefined]);
  });

  it("that were told several times are positions where all axes were told together; one alone is left out", () => {
    const proposal = understood(
      streams(axis("X", at(1, "-1.5"), at(2, "-2.5"), at(3, "-3.5")), axis("Y", at(1, "7.5"), at(3, "8.5"))),
      fourTouches,
    );
    expect(taken(proposal, fourTouches).touches.map(({ readings, y }) => [readings, y])).toEqual([
      ["-1.5", "7.5"],
      ["-3.5", "8.5"],
      ["", ""],
      ["", ""],
    ]);
    expect(whys(proposal)).toEqual(["line 1: X -2.5: Y is not told at the same time"]);
  });

  it("of several kinds ask which of them is meant", () => {
    const { lines } = understood(streams(axis("X", at(1, "-1.5"), at(1, "-1.4", "PROBE"))), fourTouches);
    expect(lines.map(({ doubt }) => doubt)).toEqual([
      "the stream tells ACTUAL and PROBE positions, and this one is ACTUAL",
      "the stream tells ACTUAL and PROBE positions, and this one is PROBE",
    ]);
  });
});

describe("work offsets of a stream", () => {
  it.each([
    ["G54", "G54"],
    ["54", "G54"],
    ["59", "G59"],
    ["59.1", "G59.1"],
    ["1", "G54"],
    ["6", "G59"],
    ["P2", "G55"],
    ["12", "P12"],
  ])("under the key %s are those of %s", (key, register) => {
    const read = readOffsetsBack(table(entry(key)), "mm");
    expect(read.ok && read.value.offsets.map((each) => each.register)).toEqual([register]);
  });

  it("become measured zeros only when somebody says so", () => {
    const { lines } = understood(table(entry("54")));
    expect(lines.map(({ doubt }) => doubt)).toEqual(["corrections and shifts may be in what the control holds beside the measured zero"]);
    const logged = taken(understood(table(entry("54"))));
    expect(understood(table(entry("54"), entry("G54")), logged).lines.map(({ doubt }) => doubt)).toEqual([
      expect.stringMatching(/^the log has G54: compare first.*; the document states G54 more than once; corrections/),
      expect.stringMatching(/^the log has G54/),
    ]);
  });

  it("without cells, without entries or not available are told", () => {
    const text = streams(
      '<ComponentStream><Events><WorkOffsetTable>UNAVAILABLE</WorkOffsetTable><WorkOffsetTable/><WorkOffsetTable><Entry key="G55"/><Entry key="G56">UNAVAILABLE</Entry></WorkOffsetTable></Events></ComponentStream>',
    );
    expect(whys(understood(text))).toEqual([
      "line 1: WorkOffsetTable UNAVAILABLE: no work offsets",
      "line 1: WorkOffsetTable without entries: no work offsets",
      "line 1: G55: an entry without cells",
      "line 1: G56 UNAVAILABLE: an entry without cells",
    ]);
    expect(readOffsetsBack(text, "mm")).toMatchObject({
      ok: false,
      problems: [{ what: "the document has no work offset that can be read: WorkOffsetTable UNAVAILABLE: no work offsets" }],
    });
  });
});
