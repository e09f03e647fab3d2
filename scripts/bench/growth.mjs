/** Slope of a straight line through points in double logarithms: the exponent p of y = c x^p (least squares). */
function exponent(points) {
  const logs = points.map(([x, y]) => [Math.log(x), Math.log(y)]);
  const mean = (at) => logs.reduce((sum, point) => sum + point[at], 0) / logs.length;
  const [mx, my] = [mean(0), mean(1)];
  const across = logs.reduce((sum, [x]) => sum + (x - mx) ** 2, 0);
  return logs.reduce((sum, [x, y]) => sum + (x - mx) * (y - my), 0) / across;
}

/**
 * How processor time grows with the number of elements, and how n log n would grow over the same sizes. What even one element
 * takes (loading, small files) is taken off first, since it would hide the growth; sizes that take hardly more are left out.
 */
export function growth(rows) {
  const [one] = rows.filter((row) => row.elements === 1);
  const used = rows.filter((row) => row.elements >= 4 && row.cpuS - one.cpuS > 0.1 * one.cpuS);
  if (used.length < 2) return { exponent: undefined, ofNLogN: undefined, from: undefined };
  return {
    exponent: exponent(used.map(({ elements, cpuS }) => [elements, cpuS - one.cpuS])),
    ofNLogN: exponent(used.map(({ elements: n }) => [n, n * Math.log(n)])),
    from: used[0].elements,
  };
}
