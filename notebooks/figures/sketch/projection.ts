import type { Plan } from "./planOf.ts";

/** A point or a direction on the sheet, pixels, Y downwards. */
export type Spot = readonly [x: number, y: number];

/** From the part's coordinates (mm) to the sheet. */
export interface Projection {
  /** Pixels per mm. */
  readonly scale: number;
  /** By how much the part is drawn turned, radians, anticlockwise. */
  readonly turned: number;
  readonly spot: (x: number, y: number) => Spot;
  /** Direction on the sheet of one along the part's own axes. */
  readonly along: (x: number, y: number) => Spot;
  /** What the outline covers on the sheet. */
  readonly bounds: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
}

/** Room about the outline, pixels. */
export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const usualHeight = 260;

/** The largest projection of a plan into a width; the outline is at most so high, pixels. */
export function projectionOf(plan: Plan, width: number, margins: Margins, turned: number, highest = usualHeight): Projection {
  const [wide, high] = [plan.x[1].at - plan.x[0].at, plan.y[1].at - plan.y[0].at];
  const [middleX, middleY] = [(plan.x[0].at + plan.x[1].at) / 2, (plan.y[0].at + plan.y[1].at) / 2];
  const [cosine, sine] = [Math.cos(turned), Math.sin(turned)];
  const [boundWide, boundHigh] = [wide * cosine + high * Math.abs(sine), wide * Math.abs(sine) + high * cosine];
  const room = Math.max(40, width - margins.left - margins.right);
  const scale = Math.min(room / boundWide, highest / boundHigh);
  const left = margins.left + (room - boundWide * scale) / 2;
  const centre: Spot = [left + (boundWide * scale) / 2, margins.top + (boundHigh * scale) / 2];
  const along = (x: number, y: number): Spot => [cosine * x - sine * y, -(sine * x + cosine * y)];
  return {
    scale,
    turned,
    along,
    spot: (x, y) => {
      const [dx, dy] = along(x - middleX, y - middleY);
      return [centre[0] + scale * dx, centre[1] + scale * dy];
    },
    bounds: { left, right: left + boundWide * scale, top: margins.top, bottom: margins.top + boundHigh * scale },
  };
}

/** a + factor · b */
export function moved(a: Spot, factor: number, b: Spot): Spot {
  return [a[0] + factor * b[0], a[1] + factor * b[1]];
}
