import { expect, it } from "vitest";
import { cautions } from "../../lib/record/cautions.ts";
import { evaluateJob, type Job, openJob, rowOf } from "../documents/openJob.ts";

function idsFor(edit: (job: Job) => void, name: "pinBlock" | "skewedRail" = "pinBlock"): string[] {
  const job = openJob(name);
  edit(job);
  return cautions(evaluateJob(job)).map(({ id }) => id);
}

const asTool = (kind: string) => (job: Job) => {
  Object.assign(job["tools"][0], { kind });
};

it.each(["touch probe", "tool or pin", "swept indicator"])("cautions(evaluation) asks for the spindle off with a %s, by name", (kind) => {
  expect(idsFor(asTool(kind), "skewedRail")).toContain("spindle off");
  const job = openJob("skewedRail");
  asTool(kind)(job);
  expect(cautions(evaluateJob(job)).find(({ id }) => id === "spindle off")?.text).toContain('Spindle off with "tip"');
});

it("cautions(evaluation) asks for a moderate speed with a turning edge finder, and not for the spindle off", () => {
  const ids = idsFor(asTool("turning edge finder"), "skewedRail");
  expect(ids).toContain("edge finder speed");
  expect(ids).not.toContain("spindle off");
});

it("cautions(evaluation) looks at the tools that touched, not at those that are only listed", () => {
  const ids = idsFor((job) => job["tools"].push({ id: "probe", kind: "touch probe", radius: "0.1", scatter: "0.0001" }), "skewedRail");
  expect(ids).not.toContain("spindle off");
});

it("cautions(evaluation) warns of what lies between tool and work where something does", () => {
  expect(idsFor(() => {})).toContain("between tool and work");
  expect(
    idsFor((job) => {
      rowOf(job["touches"], "top")["spacer"] = "";
    }),
  ).not.toContain("between tool and work");
});

it("cautions(evaluation) always defers to the machine builder, asks to read a G10 block back, and promises nothing", () => {
  for (const id of [
    "first things first",
    "stopped",
    "last millimetre",
    "after writing",
    "block text",
    "unverified",
    "second look",
    "seat",
    "no promise",
  ]) {
    expect(idsFor(() => {}, "skewedRail")).toContain(id);
  }
});

it("no caution calls anything safe", () => {
  for (const { text } of cautions(evaluateJob(openJob("pinBlock")))) expect(text.toLowerCase()).not.toContain("safe to");
});
