import { mainBounds } from "./standardTolerance.ts";

/** Fundamental deviations of one letter, by range of nominal sizes, µm; `undefined` where the standard gives none. */
export interface DeviationColumn {
  /** Upper bounds of the ranges, mm. */
  readonly bounds: readonly number[];
  readonly values: readonly (number | undefined)[];
}

/** a to c and r to zc are given for finer ranges. */
const splitBounds = [...[3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, 500]];
const splitAbove = [560, 630, 710, 800, 900, 1000, 1120, 1250, 1400, 1600, 1800, 2000, 2240, 2500, 2800, 3150];

/** From the first range on; `large`: above 500 mm. */
const main = (values: readonly number[], large: readonly number[] = []): DeviationColumn => ({
  bounds: mainBounds.slice(0, values.length + large.length),
  values: [...values, ...large],
});
/** Up to 500 mm, where fewer values mean that the first ranges have none; `large`: above 500 mm. */
const split = (values: readonly number[], large: DeviationColumn["values"] = []): DeviationColumn => ({
  bounds: large.length > 0 ? [...splitBounds, ...splitAbove] : splitBounds,
  values: [...Array<undefined>(splitBounds.length - values.length).fill(undefined), ...values, ...large],
});

/**
 * Fundamental deviations of shafts as distances from the nominal size, µm: of a to g (upper deviation, below nominal) and of k to zc (lower
 * deviation, above nominal). ISO 286-1:2010, tables 4 and 5 (values from memory; the tests hold them against published ones and against the
 * formulas of ISO 286-1:1988, table 7). r of 1400 to 1600 mm is left out, because what is remembered of it and its formula differ by more than
 * roundings elsewhere. cd, ef and fg stand for the sizes up to 10 mm that they were first made for.
 */
export const shaftDeviations = {
  a: split([
    ...[270, 270, 280, 290, 290, 300, 300, 310, 320, 340, 360, 380, 410],
    ...[460, 520, 580, 660, 740, 820, 920, 1050, 1200, 1350, 1500, 1650],
  ]),
  b: split([
    ...[140, 140, 150, 150, 150, 160, 160, 170, 180, 190, 200, 220, 240],
    ...[260, 280, 310, 340, 380, 420, 480, 540, 600, 680, 760, 840],
  ]),
  c: split([
    ...[60, 70, 80, 95, 95, 110, 110, 120, 130, 140, 150, 170, 180],
    ...[200, 210, 230, 240, 260, 280, 300, 330, 360, 400, 440, 480],
  ]),
  cd: main([34, 46, 56]),
  d: main([20, 30, 40, 50, 65, 80, 100, 120, 145, 170, 190, 210, 230], [260, 290, 320, 350, 390, 430, 480, 520]),
  e: main([14, 20, 25, 32, 40, 50, 60, 72, 85, 100, 110, 125, 135], [145, 160, 170, 195, 220, 240, 260, 290]),
  ef: main([10, 14, 18]),
  f: main([6, 10, 13, 16, 20, 25, 30, 36, 43, 50, 56, 62, 68], [76, 80, 86, 98, 110, 120, 130, 145]),
  fg: main([4, 6, 8]),
  g: main([2, 4, 5, 6, 7, 9, 10, 12, 14, 15, 17, 18, 20], [22, 24, 26, 28, 30, 32, 34, 38]),
  k: main([0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5], [0, 0, 0, 0, 0, 0, 0, 0]),
  m: main([2, 4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23], [26, 30, 34, 40, 48, 58, 68, 76]),
  n: main([4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40], [44, 50, 56, 66, 78, 92, 110, 135]),
  p: main([6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68], [78, 88, 100, 120, 140, 170, 195, 240]),
  r: split(
    [10, 15, 19, 23, 23, 28, 28, 34, 34, 41, 43, 51, 54, 63, 65, 68, 77, 80, 84, 94, 98, 108, 114, 126, 132],
    [150, 155, 175, 185, 210, 220, 250, 260, 300, undefined, 370, 400, 440, 460, 550, 580],
  ),
  s: split(
    [14, 19, 23, 28, 28, 35, 35, 43, 43, 53, 59, 71, 79, 92, 100, 108, 122, 130, 140, 158, 170, 190, 208, 232, 252],
    [280, 310, 340, 380, 430, 470, 520, 580, 640, 720, 820, 920, 1000, 1100, 1250, 1400],
  ),
  t: split(
    [41, 48, 54, 66, 75, 91, 104, 122, 134, 146, 166, 180, 196, 218, 240, 268, 294, 330, 360],
    [400, 450, 500, 560, 620, 680, 780, 840, 960, 1050, 1200, 1350, 1500, 1650, 1900, 2100],
  ),
  u: split(
    [18, 23, 28, 33, 33, 41, 48, 60, 70, 87, 102, 124, 144, 170, 190, 210, 236, 258, 284, 315, 350, 390, 435, 490, 540],
    [600, 660, 740, 840, 940, 1050, 1150, 1300, 1450, 1600, 1850, 2000, 2300, 2500, 2900, 3200],
  ),
  v: split([39, 47, 55, 68, 81, 102, 120, 146, 172, 202, 228, 252, 284, 310, 340, 385, 425, 475, 530, 595, 660]),
  x: split([...[20, 28, 34, 40, 45, 54, 64, 80, 97, 122, 146, 178, 210], ...[248, 280, 310, 350, 385, 425, 475, 525, 590, 660, 740, 820]]),
  y: split([63, 75, 94, 114, 144, 174, 214, 254, 300, 340, 380, 425, 470, 520, 580, 650, 730, 820, 920, 1000]),
  z: split([
    ...[26, 35, 42, 50, 60, 73, 88, 112, 136, 172, 210, 258, 310],
    ...[365, 415, 465, 520, 575, 640, 710, 790, 900, 1000, 1100, 1250],
  ]),
  za: split([
    ...[32, 42, 52, 64, 77, 98, 118, 148, 180, 226, 274, 335, 400],
    ...[470, 535, 600, 670, 740, 820, 920, 1000, 1150, 1300, 1450, 1600],
  ]),
  zb: split([
    ...[40, 50, 67, 90, 108, 136, 160, 200, 242, 300, 360, 445, 525],
    ...[620, 700, 780, 880, 960, 1050, 1200, 1300, 1500, 1650, 1850, 2100],
  ]),
  zc: split([
    ...[60, 80, 97, 130, 150, 188, 218, 274, 325, 405, 480, 585, 690],
    ...[800, 900, 1000, 1150, 1250, 1350, 1550, 1700, 1900, 2100, 2400, 2600],
  ]),
} as const satisfies Readonly<Record<string, DeviationColumn>>;

/**
 * The lower deviation of shafts j as a distance below nominal, µm, by grade: no formula gives it. ISO 286-1:2010, table 4 (values from memory).
 */
export const shaftJ: Readonly<Record<string, DeviationColumn>> = {
  "5": main([2, 2, 2, 3, 4, 5, 7, 9, 11, 13, 16, 18, 20]),
  "6": main([2, 2, 2, 3, 4, 5, 7, 9, 11, 13, 16, 18, 20]),
  "7": main([4, 4, 5, 6, 8, 10, 12, 15, 18, 21, 26, 28, 32]),
  "8": { bounds: [3], values: [6] },
};

/** The upper deviation of holes J, µm, by grade. ISO 286-1:2010, table 2 (values from memory). */
export const holeJ: Readonly<Record<string, DeviationColumn>> = {
  "6": main([2, 5, 5, 6, 8, 10, 13, 16, 18, 22, 25, 29, 33]),
  "7": main([4, 6, 8, 10, 12, 14, 18, 22, 26, 30, 36, 39, 43]),
  "8": main([6, 10, 12, 15, 20, 24, 28, 34, 41, 47, 55, 60, 66]),
};
