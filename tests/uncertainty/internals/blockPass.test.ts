import { describe, expect, it } from "vitest";
import { Tape } from "../../../lib/uncertainty/tape.ts";
import { binary, certain, fromSource, type Uncertain } from "../../../lib/uncertainty/uncertain.ts";

const names = ["a", "b", "c", "d"];
const sources = names.map((id, k) =>
  fromSource({
    id,
    label: id,
    family: "part",
    estimate: k + 1,
    distribution: { shape: "normal", standardDeviation: 1 },
    degreesOfFreedom: Number.POSITIVE_INFINITY,
    evidence: { kind: "stated" },
  }),
);
const [a, b, c, d] = sources as [Uncertain, Uncertain, Uncertain, Uncertain];
/** No multiple of what one round of a loop takes. */
const count = 5;
/** Numbers whose sums and products are all rounded. */
const column = (k: number) => Float64Array.from({ length: count }, (_, i) => Math.sqrt(2 + 7 * k + i) - 0.3 * k * i);
const columns = names.map((_, k) => column(k));

/** The values of results, trial by trial, beside what plain arithmetic makes of the same numbers. */
function expectSame(results: readonly Uncertain[], plain: (values: readonly [number, number, number, number]) => readonly number[]): void {
  const tape = new Tape(results);
  const found = tape.evaluate(
    tape.sources.map(({ id }) => columns[names.indexOf(id)] as Float64Array),
    count,
  );
  for (let i = 0; i < count; i++) {
    const values = columns.map((each) => each[i] as number) as unknown as readonly [number, number, number, number];
    expect(found.map((each) => each[i])).toEqual(plain(values));
  }
}

const operations = {
  add: (x: number, y: number) => x + y,
  subtract: (x: number, y: number) => x - y,
  multiply: (x: number, y: number) => x * y,
};
type Operation = keyof typeof operations;
const all = Object.keys(operations) as Operation[];

describe("a block gives what plain arithmetic gives, to the last bit", () => {
  it.each(all.flatMap((outer) => all.map((inner) => [outer, inner] as const)))("%s of %s, on either side", (outer, inner) => {
    expectSame([binary(outer, binary(inner, a, b), c), binary(outer, c, binary(inner, a, b))], ([x, y, z]) => [
      operations[outer](operations[inner](x, y), z),
      operations[outer](z, operations[inner](x, y)),
    ]);
  });

  it("where both sides are products, of one number with itself, and in long sums", () => {
    expectSame(
      [a.times(b).plus(c.times(d)), a.times(b).minus(c.times(d)), a.times(a).plus(a), a.plus(b).plus(c).plus(d).minus(a).plus(c)],
      ([x, y, z, w]) => [x * y + z * w, x * y - z * w, x * x + x, x + y + z + w - x + z],
    );
  });

  it("with numbers that are the same in all trials, on either side", () => {
    const three = binary("divide", certain(3), certain(7));
    const number = 3 / 7;
    expectSame(
      [
        binary("add", a, three),
        binary("add", three, a),
        binary("subtract", a, three),
        binary("subtract", three, a),
        binary("multiply", a, three),
        binary("multiply", three, b),
        binary("divide", a, certain(0.3)),
        binary("divide", certain(0.3), a),
        a.times(b).minus(certain(0.3)),
      ],
      ([x, y]) => [x + number, number + x, x - number, number - x, x * number, number * y, x / 0.3, 0.3 / x, x * y - 0.3],
    );
  });

  it("where a product is a result itself, or is needed twice", () => {
    const product = a.times(b);
    const sum = c.plus(d);
    expectSame([product, product.plus(c), sum.minus(a), sum.times(sum)], ([x, y, z, w]) => [
      x * y,
      x * y + z,
      z + w - x,
      (z + w) * (z + w),
    ]);
  });
});
