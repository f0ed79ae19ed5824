import type { StrategyEvaluation } from "../../../lib/decision/setupEvaluation.ts";
import { coverageEllipse } from "../coverageEllipse.ts";
import { enlargement } from "../enlargement.ts";
import { pathOf } from "../svgBuilder.ts";
import { arrowhead, type Board, boxAbout, label } from "./board.ts";
import { radiusOnSheet } from "./drawPart.ts";
import type { Plan } from "./planOf.ts";
import { moved, type Spot } from "./projection.ts";

/** Half axis up to which the ellipse of the zero is enlarged, pixels. */
const ellipseSize = 26;
/** What the drawn ellipse holds when X and Y are normal. */
const ellipseProbability = 0.95;
/** How long the axes of the zero are drawn; in a bore they come out of it, unless it is wide. */
const axisLength = 34;
const wideBore = 60;

/** Part zero: a cross with an open circle, the way of its axes, and the enlarged ellipse of its doubt. Returns the factor of the ellipse; undefined where none is drawn. */
export function drawZero(board: Board, { rounds }: Plan, { zero: [x, y], solution }: StrategyEvaluation): number | undefined {
  const { draw, marks, projection } = board;
  const [partX, partY] = solution.zeroOnPart;
  const at = projection.spot(partX, partY);
  if (!x.ok || !y.ok) {
    // One coordinate alone is a line.
    if (x.ok)
      marks.push(
        draw(
          "path",
          { class: "fig-zero-line", d: pathOf("M", at[0], projection.bounds.top - 8, "V", projection.bounds.bottom + 8) },
          draw("title", {}, "X of part zero"),
        ),
      );
    if (y.ok)
      marks.push(
        draw(
          "path",
          { class: "fig-zero-line", d: pathOf("M", projection.bounds.left - 8, at[1], "H", projection.bounds.right + 8) },
          draw("title", {}, "Y of part zero"),
        ),
      );
    return undefined;
  }
  const factor = drawEllipse(board, at, coverageEllipse(x.value, y.value, ellipseProbability));
  const ways: readonly (readonly [string, Spot])[] = [
    ["X", solution.appliesRotation ? projection.along(1, 0) : [1, 0]],
    ["Y", solution.appliesRotation ? projection.along(0, 1) : [0, -1]],
  ];
  const about = rounds.find((round) => Math.hypot(round.x - partX, round.y - partY) * projection.scale < 1);
  const wall = about === undefined ? 0 : radiusOnSheet(board, about.element.diameter / 2);
  const length = wall < wideBore ? Math.max(axisLength, wall + 24) : axisLength;
  const cross = ways.map(([, way]) => pathOf("M", ...moved(at, -9, way), "L", ...moved(at, length - 6, way))).join(" ");
  marks.push(
    draw(
      "g",
      { class: "fig-zero" },
      draw("title", {}, "part zero"),
      draw("path", { class: "fig-zero-axis", d: cross }),
      ...ways.map(([, way]) => arrowhead(draw, moved(at, length, way), way, "fig-zero-tip", 8)),
      draw("circle", { class: "fig-zero-ring", cx: at[0], cy: at[1], r: 5 }),
    ),
  );
  for (const [name, way] of ways) {
    const tip = moved(at, length, way);
    label(board, name, tip, {
      gap: 3,
      className: "fig-calm fig-strong",
      prefer: name === "X" ? ["below", "above", "right"] : ["left", "right", "above"],
    });
    board.obstacles.push(boxAbout(at, tip, 2));
  }
  return factor;
}

function drawEllipse(
  { draw, marks, projection }: Board,
  [cx, cy]: Spot,
  { major, minor, angle }: ReturnType<typeof coverageEllipse>,
): number | undefined {
  if (!(major > 0)) return undefined;
  const factor = enlargement(major * projection.scale, ellipseSize);
  const length = (value: number) => Math.max(0.75, value * projection.scale * factor);
  const degrees = ((-angle * 180) / Math.PI).toFixed(2);
  marks.push(
    draw(
      "ellipse",
      {
        class: "fig-region",
        cx,
        cy,
        rx: length(major),
        ry: length(minor),
        transform: `rotate(${degrees} ${cx.toFixed(2)} ${cy.toFixed(2)})`,
      },
      draw("title", {}, "95 % of the zero's doubt in X and Y, enlarged"),
    ),
  );
  return factor;
}
