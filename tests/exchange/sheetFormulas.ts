import type { ReadCell } from "./readWorkbook.ts";

type Value = number | string | boolean;
type Cells = ReadonlyMap<string, ReadonlyMap<string, ReadCell>>;

/**
 * Works a workbook out by its formulas alone: what is stored beside a formula is not looked at. A small calculator of its own, with the functions that a
 * budget needs; their quantiles come from the integral of the density of t, by quadrature.
 *
 * @param changed cells in the place of those in the file, such as `Sources!D2`
 */
export function calculator(sheets: Cells, changed: ReadonlyMap<string, number> = new Map()): (sheet: string, cell: string) => Value {
  const known = new Map<string, Value>();
  const valueAt = (sheet: string, cell: string): Value => {
    const name = `${sheet}!${cell}`;
    const other = changed.get(name);
    if (other !== undefined) return other;
    const found = sheets.get(sheet)?.get(cell);
    if (found === undefined) throw new Error(`${name} is empty`);
    if (found.formula === undefined) return found.value ?? "";
    let value = known.get(name);
    if (value === undefined) {
      value = new Formula(found.formula, sheet, valueAt).value();
      known.set(name, value);
    }
    return value;
  };
  return valueAt;
}

/** Recursive descent over one formula: comparison, sum, product, power, then numbers, texts, cells and functions. */
class Formula {
  private readonly tokens: readonly string[];
  private at = 0;
  private readonly sheet: string;
  private readonly valueAt: (sheet: string, cell: string) => Value;

  constructor(text: string, sheet: string, valueAt: (sheet: string, cell: string) => Value) {
    this.tokens =
      text.match(
        /"[^"]*"|_xlfn\.[A-Z0-9.]+|[A-Za-z]+![A-Z]+\d+|[A-Z]+\d+(?::[A-Z]+\d+)?|[A-Z][A-Z0-9.]*(?=\()|\d+(?:\.\d+)?(?:E-?\d+)?|[-+*/^()=<,]/g,
      ) ?? [];
    if (this.tokens.join("") !== text) throw new Error(`not understood: ${text}`);
    this.sheet = sheet;
    this.valueAt = valueAt;
  }

  value(): Value {
    const value = this.comparison();
    if (this.at < this.tokens.length) throw new Error(`left over: ${this.tokens.slice(this.at).join("")}`);
    return value;
  }

  private takes(...signs: string[]): string | undefined {
    const token = this.tokens[this.at];
    if (token === undefined || !signs.includes(token)) return undefined;
    this.at += 1;
    return token;
  }

  private comparison(): Value {
    const left = this.sum();
    const sign = this.takes("=", "<");
    if (sign === undefined) return left;
    const right = this.sum();
    return sign === "=" ? left === right : left < right;
  }

  private sum(): Value {
    let left = this.product();
    for (let sign = this.takes("+", "-"); sign !== undefined; sign = this.takes("+", "-"))
      left = sign === "+" ? numeric(left) + numeric(this.product()) : numeric(left) - numeric(this.product());
    return left;
  }

  private product(): Value {
    let left = this.power();
    for (let sign = this.takes("*", "/"); sign !== undefined; sign = this.takes("*", "/"))
      left = sign === "*" ? numeric(left) * numeric(this.power()) : numeric(left) / numeric(this.power());
    return left;
  }

  private power(): Value {
    const base = this.term();
    return this.takes("^") === undefined ? base : numeric(base) ** numeric(this.term());
  }

  private term(): Value {
    const token = this.tokens[this.at++];
    if (token === undefined) throw new Error("the formula breaks off");
    if (token === "(") {
      const inside = this.comparison();
      this.close();
      return inside;
    }
    if (token.startsWith('"')) return token.slice(1, -1);
    if (/^\d/.test(token)) return Number(token);
    if (token.includes("!")) {
      const [sheet = "", cell = ""] = token.split("!");
      return this.valueAt(sheet, cell);
    }
    if (/^[A-Z]+\d+$/.test(token) && this.tokens[this.at] !== "(") return this.valueAt(this.sheet, token);
    return this.call(token.replace("_xlfn.", ""));
  }

  private close(): void {
    if (this.takes(")") === undefined) throw new Error(`a bracket is missing before ${this.tokens[this.at]}`);
  }

  private call(name: string): Value {
    if (this.takes("(") === undefined) throw new Error(`not understood: ${name}`);
    // What a condition rules out may not be workable at all.
    if (name === "IF") return this.choice();
    const values = this.list();
    const [a, b, c] = values.map((value) => (typeof value === "number" ? value : Number.NaN));
    switch (name) {
      case "SUM":
        return numbersOf(values).reduce((sum, value) => sum + value, 0);
      case "SUMSQ":
        return numbersOf(values).reduce((sum, value) => sum + value * value, 0);
      case "SQRT":
        return Math.sqrt(a as number);
      case "ISNUMBER":
        return typeof values[0] === "number";
      case "NORM.S.INV":
        return normalFactor(2 * (a as number) - 1);
      case "T.INV.2T":
        return studentFactor(1 - (a as number), Math.floor(b as number));
      case "BETA.INV": {
        if (b !== 0.5) throw new Error("only Beta(1/2, b) is worked out here");
        const t = studentFactor(a as number, 2 * (c as number));
        return (t * t) / (t * t + 2 * (c as number));
      }
      default:
        throw new Error(`no function ${name}`);
    }
  }

  private choice(): Value {
    const isTrue = this.comparison();
    const taken = isTrue === true ? 0 : 1;
    let value: Value | undefined;
    for (let i = 0; i < 2; i++) {
      if (this.takes(",") === undefined) throw new Error("IF wants three values");
      if (i === taken) value = this.comparison();
      else this.skip();
    }
    this.close();
    return value as Value;
  }

  /** To the next comma or bracket of this level. */
  private skip(): void {
    for (let depth = 0; ; this.at += 1) {
      const token = this.tokens[this.at];
      if (token === undefined) throw new Error("the formula breaks off");
      if (depth === 0 && (token === "," || token === ")")) return;
      if (token === "(") depth += 1;
      if (token === ")") depth -= 1;
    }
  }

  private list(): Value[] {
    const values: Value[] = [];
    do {
      const range = /^([A-Z]+)(\d+):([A-Z]+)(\d+)$/.exec(this.tokens[this.at] ?? "");
      if (range === null) values.push(this.comparison());
      else {
        this.at += 1;
        for (let row = Number(range[2]); row <= Number(range[4]); row++) values.push(this.valueAt(this.sheet, `${range[1]}${row}`));
      }
    } while (this.takes(",") !== undefined);
    this.close();
    return values;
  }
}

function numeric(value: Value): number {
  if (typeof value !== "number") throw new Error(`a number is wanted, not ${JSON.stringify(value)}`);
  return value;
}

/** Spreadsheet programs leave texts in a range out of sums. */
function numbersOf(values: readonly Value[]): number[] {
  return values.filter((value) => typeof value === "number");
}

/**
 * t with P(|T| < t) = p. With t = √ν·tan θ the chance is the integral of cos^(ν-1) from 0 to θ, over that to π/2; for many degrees of freedom, where that
 * is a narrow peak, that of (1 + t²/ν)^(-(ν+1)/2) itself, which beyond 60 is below 1e-32.
 */
function studentFactor(p: number, freedom: number): number {
  const name = `${p} ${freedom}`;
  const factor = factors.get(name) ?? findStudentFactor(p, freedom);
  factors.set(name, factor);
  return factor;
}

/** Every budget of a workbook asks for the same few. */
const factors = new Map<string, number>();

function findStudentFactor(p: number, freedom: number): number {
  if (freedom >= 30) {
    const density = (t: number) => Math.exp((-(freedom + 1) / 2) * Math.log1p((t * t) / freedom));
    const all = integral(density, 60);
    return root((t) => integral(density, t) / all - p, 60);
  }
  // Near π/2 the cosine is known by the way that is left.
  const all = integral((_, left) => Math.sin(left) ** (freedom - 1), Math.PI / 2);
  const within = (angle: number) => integral((x) => Math.cos(x) ** (freedom - 1), angle) / all;
  return Math.sqrt(freedom) * Math.tan(root((angle) => within(angle) - p, Math.PI / 2));
}

function normalFactor(p: number): number {
  const density = (z: number) => Math.exp((-z * z) / 2) * Math.sqrt(2 / Math.PI);
  return root((z) => integral(density, z) - p, 20);
}

/** From 0 to `end`, by the tanh-sinh rule, which minds no singular ends. */
function integral(f: (x: number, left: number) => number, end: number): number {
  const step = 1 / 64;
  let sum = 0;
  for (let k = -256; k <= 256; k++) {
    const t = k * step;
    const inner = (Math.PI / 2) * Math.sinh(t);
    const x = end / (1 + Math.exp(-2 * inner));
    const weight = (end * (Math.PI / 4) * Math.cosh(t)) / Math.cosh(inner) ** 2;
    const left = end / (1 + Math.exp(2 * inner));
    if (weight > 0 && x > 0 && left > 0) sum += f(x, left) * weight;
  }
  return sum * step;
}

function root(f: (x: number) => number, end: number): number {
  let [low, high] = [0, end];
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (f(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
