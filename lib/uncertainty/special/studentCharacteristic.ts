import { binetFunction } from "./logGamma.ts";
import { polynomialPiece } from "./polynomialPiece.ts";

/**
 * The characteristic function E[cos(s T)] of Student's t with `degreesOfFreedom` > 0 (whole or not), as a function of s >= 0;
 * absolute error below 1e-13. `Infinity` gives the normal's.
 *
 * It equals z^μ K_μ(z) / (2^(μ-1) Γ(μ)) with μ = ν/2 and z = √ν s (S. Hurst, The characteristic function of the Student t
 * distribution, 1995). For odd ν that is e^(-z) times a polynomial (DLMF 10.49.12); otherwise it is tabulated piece by piece
 * at the first use, and the pieces are kept for the next distribution with the same degrees of freedom.
 */
export function studentCharacteristic(degreesOfFreedom: number): (s: number) => number {
  if (!(degreesOfFreedom > 0)) throw new RangeError(`degreesOfFreedom: expected > 0, got ${degreesOfFreedom}`);
  if (degreesOfFreedom >= normalFrom) return (s) => Math.exp(-0.5 * s * s);
  const known = evaluators.get(degreesOfFreedom);
  if (known) return known;
  const made =
    degreesOfFreedom % 2 === 1 && degreesOfFreedom <= largestPolynomial
      ? polynomialForm(degreesOfFreedom)
      : tabulatedForm(degreesOfFreedom);
  if (evaluators.size >= mostEvaluators) evaluators.clear();
  evaluators.set(degreesOfFreedom, made);
  return made;
}

/** The normal's characteristic function differs from the t's by at most 0.44 / ν. */
const normalFrom = 1e13;
const largestPolynomial = 15;
/** A memory of pure values: it changes no result, only the time. */
const evaluators = new Map<number, (s: number) => number>();
const mostEvaluators = 200;

/** e^(-z) Σ aₖ zᵏ; aₖ₊₁/aₖ = 2 (m - k) / ((2m - k) (k + 1)) with m = (ν - 1)/2, from DLMF 10.49.1 and 10.49.12. */
function polynomialForm(degreesOfFreedom: number): (s: number) => number {
  const m = (degreesOfFreedom - 1) / 2;
  const coefficients = [1];
  for (let k = 0; k < m; k += 1) coefficients.push(((coefficients[k] as number) * 2 * (m - k)) / ((2 * m - k) * (k + 1)));
  const root = Math.sqrt(degreesOfFreedom);
  return (s) => {
    const z = root * s;
    // e^-800 is 0, and a power of an infinite z would be no number.
    if (z > 800) return 0;
    let sum = 0;
    for (let k = m; k >= 0; k -= 1) sum = sum * z + (coefficients[k] as number);
    return Math.exp(-z) * sum;
  };
}

/**
 * Short polynomials on pieces, sixteen to every doubling of s: φ is analytic in a strip about the real axis of ln s (its only singularity, at
 * s = 0, has gone to -∞), so few points reach an absolute error of 1e-13 for every ν, though φ itself behaves like |s|^ν near zero.
 * The exponent and the first bits of s, as it is stored, name the piece.
 */
function tabulatedForm(degreesOfFreedom: number): (s: number) => number {
  const valueAt = integralForm(degreesOfFreedom);
  const pieces = new Array<Float64Array | undefined>(60 * piecesPerOctave);
  const stored = new Float64Array(1);
  const words = new Uint32Array(stored.buffer);
  const fill = (index: number) => {
    const from = (1 + (index % piecesPerOctave) / piecesPerOctave) * 2 ** (Math.floor(index / piecesPerOctave) - exponentBias);
    const width = 2 ** (Math.floor(index / piecesPerOctave) - exponentBias) / piecesPerOctave;
    const made = polynomialPiece((t) => valueAt(from + (width * (t + 1)) / 2), piecePoints);
    pieces[index - firstPiece] = made;
    return made;
  };
  return (s) => {
    if (!(s > smallestTabulated && s < largestTabulated)) return valueAt(s);
    stored[0] = s;
    const high = words[highWord] as number;
    const index = high >>> indexShift;
    const piece = pieces[index - firstPiece] ?? fill(index);
    // The same digits with the exponent of 1: from 1 to 2, and from there to the place within the piece.
    words[highWord] = (high & 0xfffff) | (exponentBias << 20);
    const place = ((stored[0] as number) - 1) * piecesPerOctave;
    const t = 2 * (place - (index & (piecesPerOctave - 1))) - 1;
    let sum = piece[0] as number;
    for (let k = 1; k < piecePoints; k++) sum = sum * t + (piece[k] as number);
    return sum;
  };
}

const smallestTabulated = 2 ** -40;
const largestTabulated = 2 ** 20;
/** Bits of a double (IEEE 754): 20 bits of the fraction are in the word with the exponent, 4 of them name the piece. */
const piecesPerOctave = 16;
const indexShift = 16;
const exponentBias = 1023;
const firstPiece = (exponentBias - 40) * piecesPerOctave;
const piecePoints = 8;
/** Where that word is: the order of bytes differs between machines. */
const highWord = new Uint32Array(Float64Array.of(1).buffer)[1] === exponentBias << 20 ? 1 : 0;

/**
 * φ by the trapezoid rule: T is normal with the random variance e^(-x), where e^x is chi-square over its degrees of freedom, so
 * φ(s) = ∫ density(x) exp(-½ s² e^(-x)) dx. Every term is positive and nothing cancels; the integrand is analytic and falls off
 * exponentially or faster, for which the rule converges geometrically.
 */
function integralForm(degreesOfFreedom: number): (s: number) => number {
  const mu = degreesOfFreedom / 2;
  const peak = Math.sqrt(mu / (2 * Math.PI)) * Math.exp(-binetFunction(mu));
  return (s) => {
    if (s === 0) return 1;
    const halfSquare = 0.5 * s * s;
    if (!(halfSquare < Number.POSITIVE_INFINITY)) return 0;
    // The integrand's peak: μ (1 - e^x) + ½ s² e^(-x) = 0.
    const centre = Math.log((1 + Math.sqrt(1 + (4 * halfSquare) / mu)) / 2);
    const step = Math.min(0.19, 0.6 / Math.sqrt(mu * Math.exp(centre) + halfSquare * Math.exp(-centre)));
    let sum = 0;
    for (const direction of [1, -1]) {
      for (let k = direction === 1 ? 0 : 1; ; k += 1) {
        const x = centre + direction * k * step;
        const term = Math.exp(-mu * excess(x) - halfSquare * Math.exp(-x));
        sum += term;
        if (!(term > 1e-18 * sum)) break;
      }
    }
    return Math.min(1, peak * step * sum);
  };
}

/** e^x - 1 - x; by its series for small x, where the difference would lose its digits. */
function excess(x: number): number {
  if (Math.abs(x) > 0.1) return Math.exp(x) - 1 - x;
  return x * x * (1 / 2 + x * (1 / 6 + x * (1 / 24 + x * (1 / 120 + x * (1 / 720 + x * (1 / 5040 + x * (1 / 40320 + x / 362880)))))));
}
