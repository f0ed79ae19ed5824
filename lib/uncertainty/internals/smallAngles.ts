/**
 * Sine, cosine and arctangent of the small angles by which parts and machines are turned: a polynomial in place of a call, and the same to the
 * last bit in every engine. Larger arguments go to the engine's own functions.
 *
 * Polynomials of fdlibm (Sun Microsystems 1993: k_sin.c, k_cos.c, s_atan.c), whose error is below one unit in the last place.
 */
export function sine(x: number): number {
  // Zero keeps its sign, and a missing number stays missing, on the long way.
  if (!(Math.abs(x) <= Math.PI / 4) || x === 0) return Math.sin(x);
  const z = x * x;
  const rest =
    8.33333333332248946124e-3 +
    z * (-1.98412698298579493134e-4 + z * (2.75573137070700676789e-6 + z * (-2.50507602534068634195e-8 + z * 1.58969099521155010221e-10)));
  return x + z * x * (-1.66666666666666324348e-1 + z * rest);
}

export function cosine(x: number): number {
  if (!(Math.abs(x) < 0.3)) return Math.cos(x);
  const z = x * x;
  const rest =
    z *
    (4.16666666666666019037e-2 +
      z *
        (-1.38888888888741095749e-3 +
          z *
            (2.48015872894767294178e-5 +
              z * (-2.75573143513906633035e-7 + z * (2.0875723212981748279e-9 + z * -1.13596475577881948265e-11)))));
  return 1 - (0.5 * z - z * rest);
}

/** Angle from the X axis to (x, y); π, not -π, for -0 above a negative x, as `binaryValue` has it. */
export function arctangent2(y: number, x: number): number {
  if (!(Math.abs(y) < 0.4375 * x)) return Math.atan2(y + 0, x);
  const t = y / x;
  if (t === 0) return t;
  const z = t * t;
  const w = z * z;
  const odd =
    z *
    (3.33333333333329318027e-1 +
      w *
        (1.42857142725034663711e-1 +
          w *
            (9.09088713343650656196e-2 +
              w * (6.66107313738753120669e-2 + w * (4.97687799461593236017e-2 + w * 1.62858201153657823623e-2)))));
  const even =
    w *
    (-1.99999999998764832476e-1 +
      w *
        (-1.1111110405462355788e-1 + w * (-7.69187620504482999495e-2 + w * (-5.83357013379057348645e-2 + w * -3.6531572744216915527e-2))));
  return t - t * (odd + even);
}
