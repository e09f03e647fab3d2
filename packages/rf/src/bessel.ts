/**
 * Bessel function of the first kind of whole order, J_n(x), for finite x and n >= 0.
 *
 * J_n(x) = (1/pi) integral over 0..pi of cos(n t - x sin t) dt (Abramowitz & Stegun 9.1.21). The integrand is periodic
 * and smooth, so the trapezoidal rule converges faster than any power once it has more points than |x| + n; the
 * result is good to about 1e-14.
 */
export function besselJ(order: number, x: number): number {
  const points = 24 + Math.ceil(1.5 * (Math.abs(x) + order));
  let sum = 0;
  for (let i = 0; i < 2 * points; i += 1) {
    const t = (Math.PI * (i + 0.5)) / points;
    sum += Math.cos(order * t - x * Math.sin(t));
  }
  return sum / (2 * points);
}
