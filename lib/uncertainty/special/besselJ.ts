/**
 * Bessel functions of the first kind of orders 0 and 1, absolute error about 1e-15 (about 1e-16·|x| for large |x|, where the
 * argument of the cosine is all that matters).
 *
 * Chebyshev series: J0 and J1/x directly up to 8, beyond it the amplitudes of Hankel's form √(2/πx) (P cos χ - Q sin χ)
 * (DLMF 10.17.3). The coefficients are our own, computed to 40 digits by tests/reference/besselCoefficients.py.
 */
export function besselJ0(x: number): number {
  const size = Math.abs(x);
  if (size <= 8) return chebyshevSum(nearZero, (size * size) / 32 - 1);
  const t = 128 / (size * size) - 1;
  const cosine = Math.cos(size);
  const sine = Math.sin(size);
  // χ = x - π/4, so √2 cos χ = cos x + sin x and √2 sin χ = sin x - cos x.
  return (
    (chebyshevSum(farCosineZero, t) * (cosine + sine) - (8 / size) * chebyshevSum(farSineZero, t) * (sine - cosine)) /
    Math.sqrt(Math.PI * size)
  );
}

export function besselJ1(x: number): number {
  const size = Math.abs(x);
  if (size <= 8) return x * chebyshevSum(nearOne, (size * size) / 32 - 1);
  const t = 128 / (size * size) - 1;
  const cosine = Math.cos(size);
  const sine = Math.sin(size);
  // χ = x - 3π/4, so √2 cos χ = sin x - cos x and √2 sin χ = -(cos x + sin x).
  const value =
    (chebyshevSum(farCosineOne, t) * (sine - cosine) + (8 / size) * chebyshevSum(farSineOne, t) * (cosine + sine)) /
    Math.sqrt(Math.PI * size);
  return x < 0 ? -value : value;
}

/** Σ cₖ Tₖ(t) by Clenshaw's recurrence. */
function chebyshevSum(coefficients: readonly number[], t: number): number {
  let next = 0;
  let after = 0;
  for (let k = coefficients.length - 1; k > 0; k -= 1) {
    const current = 2 * t * next - after + (coefficients[k] as number);
    after = next;
    next = current;
  }
  return t * next - after + (coefficients[0] as number);
}

const nearZero = [
  0.15772797147489012, -0.008723442352852221, 0.2651786132033368, -0.37009499387264977, 0.15806710233209725, -0.034893769411408884,
  0.004819180069467605, -0.00046062616620627504, 3.246032882100508e-5, -1.7619469077621507e-6, 7.608163592418782e-8, -2.679253530557673e-9,
  7.848696314479465e-11, -1.9438346867370164e-12, 4.125320595634374e-14, -7.588508125447546e-16, 1.2218515873961411e-17,
];
const nearOne = [
  0.08104484632565812, -0.1489751450676521, 0.1609992623572097, -0.08268049176681791, 0.022213639654966037, -0.003646940600769276,
  0.0004050337728354822, -3.255554866857259e-5, 1.9858774049915165e-6, -9.521984756750436e-8, 3.687133759097148e-9, -1.178026622695885e-10,
  3.160154580348003e-12, -7.221755239651773e-14, 1.4232144003513942e-15, -2.4441972916190464e-17,
];
const farCosineZero = [
  0.9994603493475187, -0.0005365220468132117, 3.0751847875194745e-6, -5.1705945376060975e-8, 1.6306464635151382e-9, -7.86409137723707e-11,
  5.168262387349193e-12, -4.3045788699253914e-13, 4.3265957431549404e-14, -5.069034095935236e-15, 6.748072215733872e-16,
  -1.0011513723467746e-16, 1.6305919233743123e-17,
];
const farSineZero = [
  -0.015555854605337009, 6.838519942611649e-5, -7.414498411060647e-7, 1.7972457247968992e-8, -7.27191593686632e-10, 4.2201219046687385e-11,
  -3.206747420996635e-12, 3.006145125351706e-13, -3.336328185322427e-14, 4.255225040245461e-15, -6.099930131640047e-16,
  9.662128970303175e-17, -1.6686065214376035e-17,
];
const farCosineOne = [
  1.0009030408600137, 0.0008989898330859408, -3.987284300488908e-6, 6.177633960644299e-8, -1.8718907491063067e-9, 8.816898659582339e-11,
  -5.704863640395645e-12, 4.699195515230542e-13, -4.6842237839904895e-14, 5.452674896044717e-15, -7.221180842274016e-16,
  1.0667689114335372e-16, -1.731231321611524e-17,
];
const farSineOne = [
  0.04677778706953532, -9.62772354915708e-5, 9.138615257955454e-7, -2.0959781384083424e-8, 8.229193327650554e-10, -4.686363688176945e-11,
  3.5152187949686082e-12, -3.2643156743279e-13, 3.5967765829165294e-14, -4.5612523950772974e-15, 6.508282957783381e-16,
  -1.026914753182316e-16, 1.7676355487762615e-17,
];
