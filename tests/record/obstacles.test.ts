import { expect, it } from "vitest";
import { describeProblem } from "../../lib/base/outcome.ts";
import { obstacles } from "../../lib/record/obstacles.ts";
import { evaluateJob, type Job, openJob, rowOf } from "../documents/openJob.ts";

function placesOf(edit: (job: Job) => void): string[] {
  const job = openJob("pinBlock");
  edit(job);
  return obstacles(evaluateJob(job)).map(({ at }) => at);
}

it("obstacles(evaluation) is empty where everything could be worked out", () => {
  expect(placesOf(() => {})).toEqual([]);
});

it("obstacles(evaluation) tells an unreadable tool at the tool, and not again at every touch and strategy that misses it", () => {
  expect(
    placesOf((job) => {
      rowOf(job["tools"], "stylus")["radius"] = "-1";
    }),
  ).toEqual(["tools.stylus.radius"]);
});

it("obstacles(evaluation) still tells a name that is nowhere, beside a row of another table that bears it", () => {
  expect(
    placesOf((job) => {
      rowOf(job["tools"], "stylus")["radius"] = "-1";
      rowOf(job["touches"], "top")["spacer"] = "stylus";
    }),
  ).toEqual(["tools.stylus.radius", "touches.top.spacer"]);
});

it("obstacles(evaluation) lets a strategy leave an axis alone that nothing on the drawing needs", () => {
  expect(
    placesOf((job) => {
      job["part"].characteristics = [job["part"].characteristics[1]];
      job["strategies"] = [{ id: "end", touches: ["left"] }];
    }),
  ).toEqual([]);
});

it("obstacles(evaluation) tells a characteristic that no strategy can judge, but not one that only some cannot", () => {
  const onlyEnd = { id: "end", touches: ["left", "front"] };
  expect(placesOf((job) => job["strategies"].push(onlyEnd))).toEqual([]);
  expect(
    placesOf((job) => {
      job["strategies"] = [onlyEnd];
    }),
  ).toEqual(["part.characteristics.recess depth"]);
});

it("obstacles(evaluation) tells each problem once", () => {
  const job = openJob("pinBlock");
  rowOf(job["strategies"], "middle")["touches"] = ["left", "nowhere", "nowhere else"];
  job["strategies"].push({ id: "again", touches: ["nowhere"] });
  expect(obstacles(evaluateJob(job)).map(describeProblem)).toEqual([
    'strategies.middle.touches: there is no such touch; got "nowhere".',
    'strategies.middle.touches: there is no such touch; got "nowhere else".',
    'strategies.again.touches: there is no such touch; got "nowhere".',
  ]);
});

it("obstacles(evaluation) tells in one line that there is no touch at all", () => {
  expect(
    placesOf((job) => {
      job["touches"] = [];
    }),
  ).toEqual(["touches"]);
});
