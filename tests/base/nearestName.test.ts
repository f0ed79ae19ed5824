import { expect, it } from "vitest";
import { nearestName } from "../../lib/base/nearestName.ts";

const known = ["zero_x", "boss_radius", "bore_radius", "d", "sqrt", "mm"];

it.each([
  ["boss_raduis", "boss_radius", "two letters swapped"],
  ["boss_radus", "boss_radius", "a letter left out"],
  ["bore_radiuss", "bore_radius", "a letter too many"],
  ["sqr", "sqrt", "a letter left out of a short name"],
  ["dd", "d", "a letter doubled"],
  ["MM", "mm", "another case"],
])("nearestName(%j) is %j: %s", (typed, expected) => {
  expect(nearestName(typed, known)).toBe(expected);
});

it.each(["e", "wall", "xx", "constructor", ""])("nearestName(%j) is undefined where nothing is near", (typed) => {
  expect(nearestName(typed, known)).toBeUndefined();
});
