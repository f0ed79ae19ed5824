import { failure, type Outcome, success } from "./outcome.ts";

/** A moment as it was written, and what orders it among others. */
export interface Moment {
  readonly text: string;
  /** The earliest that it can have been; later is larger, and differences have no meaning. */
  readonly order: number;
  /** The latest that it can have been: of a day without a time its last minute. */
  readonly latest: number;
}

const minutesOfDay = 24 * 60;

/** A day and a time of day as ISO 8601 writes them, `2026-03-14 16:20`, or a day alone; only their order is read. */
export function parseMoment(text: string): Outcome<Moment> {
  const match = /^\s*(\d{4}-\d{2}-\d{2})(?:[ T](\d{2}):(\d{2}))?\s*$/u.exec(text);
  const [day = "", hours, minutes] = match?.slice(1) ?? [];
  const start = startOf(day);
  const [hour, minute] = [Number(hours ?? 0), Number(minutes ?? 0)];
  if (start === undefined || hour >= 24 || minute >= 60)
    return failure({
      at: "",
      what: text.trim() === "" ? "the time is missing" : "this is no time",
      expected: "a day and a time, such as 2026-03-14 16:20",
      got: text,
    });
  const order = start + hour * 60 + minute;
  return success({ text: text.trim(), order, latest: hours === undefined ? order + minutesOfDay - 1 : order });
}

/** A day as ISO 8601 writes one, `2026-03-14`. */
export function parseDay(text: string): Outcome<Moment> {
  const start = startOf(text.trim());
  return start === undefined
    ? failure({ at: "", what: "this is no day", expected: "a day as year, month and day, such as 2026-03-14", got: text })
    : success({ text: text.trim(), order: start, latest: start + minutesOfDay - 1 });
}

/**
 * The day with which a text begins that may go on with a time of any kind, such as `2026-03-14T16:20Z`; undefined of any other text. In which zone the
 * time is counted does not matter to whoever asks for a day.
 */
export function dayWithin(text: string): Moment | undefined {
  const [, day = ""] = /^\s*(\d{4}-\d{2}-\d{2})(?:[ T]\d{2}:?\d{2}.*)?\s*$/su.exec(text) ?? [];
  const parsed = parseDay(day);
  return parsed.ok ? parsed.value : undefined;
}

/** What orders the start of a day of the Gregorian calendar among others, in minutes with gaps between months; undefined where there is no such day. */
function startOf(day: string): number | undefined {
  const [, year, month, date] = /^(\d{4})-(\d{2})-(\d{2})$/u.exec(day)?.map(Number) ?? [];
  if (year === undefined || month === undefined || date === undefined || month < 1 || month > 12) return undefined;
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = month === 2 && !isLeap ? 28 : (daysOf[month - 1] as number);
  return date >= 1 && date <= days ? ((year * 12 + month) * 31 + date) * minutesOfDay : undefined;
}

const daysOf = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
