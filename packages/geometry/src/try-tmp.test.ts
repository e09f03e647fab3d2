import { it } from 'vitest';
import { writeFileSync } from 'node:fs';
import { assemble } from './assemble.ts';
import { validate } from './validate.ts';
import { measure } from './measure.ts';
import { unionContours } from './union.ts';
import { offsetContour } from './offset.ts';
import { toolPath } from './tool-path.ts';
import { rectangleContour, circleContour } from './contours.ts';
import { walkContour } from './walk.ts';
import { bounds } from './contour-measure.ts';
import { stripArray, designOf } from './testing/designs.ts';
const svgPath = (c: any) => { let d = ''; let here: any; walkContour(c, { circle(p, r) { d += `M${p.x + r} ${-p.y}A${r} ${r} 0 1 0 ${p.x - r} ${-p.y}A${r} ${r} 0 1 0 ${p.x + r} ${-p.y}Z`; }, begin(p) { here = p; d += `M${p.x} ${-p.y}`; }, line(p) { d += `L${p.x} ${-p.y}`; here = p; }, arc(p, c, s) { const r = Math.hypot(p.x - c.x, p.y - c.y); const cr = (here.x - c.x) * (p.y - c.y) - (here.y - c.y) * (p.x - c.x); const large = (s === 'ccw') === (cr > 0) ? 0 : 1; d += `A${r} ${r} 0 ${large} ${s === 'ccw' ? 0 : 1} ${p.x} ${-p.y}`; here = p; }, close() { d += 'Z'; } }); return d; };
it('x', () => {
  for (const n of [2, 4, 8, 16]) {
    const design = designOf({ ...stripArray, lattice: { ...stripArray.lattice, rows: n, columns: n, row_pitch: '60 mm', column_pitch: '60 mm' } } as any);
    let t = performance.now();
    const a = assemble(design);
    console.log(n, 'assemble', performance.now() - t, a.findings.map((f) => f.code+f.value+f.allowed));
    if (!a.assembly) continue;
    t = performance.now();
    console.log('validate', validate(a.assembly).map((f) => f.code + ' ' + f.value), performance.now() - t);
    t = performance.now(); console.log(measure(a.assembly).filter(m=>m.part==='harness-strip').slice(0,3), performance.now() - t);
    const strip: any = a.assembly.parts.find((p) => p.id === 'harness-strip');
    t = performance.now();
    const tp = toolPath(strip.outline, { kerfMm: 0.3, compensateKerf: true });
    console.log('tool path', performance.now() - t, strip.outline.outer.segments.length);
    const b = bounds(tp.outer);
    writeFileSync(`/tmp/strip${n}.svg`, `<svg xmlns="http://www.w3.org/2000/svg" width="1000" height="1000" viewBox="${b.minX - 2} ${-b.maxY - 2} ${b.maxX - b.minX + 4} ${b.maxY - b.minY + 4}"><g fill="none" stroke-width="0.08"><path stroke="black" fill="#eee" d="${svgPath(strip.outline.outer)}"/><path stroke="red" d="${svgPath(tp.outer)}"/>${tp.holes.map((h: any) => `<path stroke="red" d="${svgPath(h)}"/>`).join('')}${strip.outline.holes.map((h: any) => `<path stroke="black" d="${svgPath(circleContour(h.centre, h.diameterMm / 2))}"/>`).join('')}</g></svg>`);
  }
  for (const n of [100, 400, 1000]) {
    const shapes = Array.from({ length: n }, (_, i) => i % 2 ? circleContour({ x: i * 3, y: 0 }, 2.5) : rectangleContour({ centre: { x: i * 3, y: 0 }, widthMm: 4, heightMm: 2 }));
    const t = performance.now(); const u = unionContours(shapes); console.log('chain of', n, performance.now() - t, u.length);
    const apart = Array.from({ length: n }, (_, i) => circleContour({ x: i * 30, y: 0 }, 2.5)).flatMap((c: any) => [c, rectangleContour({ centre: c.centre, widthMm: 10, heightMm: 1 })]);
    const t2 = performance.now(); const u2 = unionContours(apart); console.log('pairs', n, performance.now() - t2, u2.length);
  }
});
