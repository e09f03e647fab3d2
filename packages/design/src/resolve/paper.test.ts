import { expect, it } from 'vitest';
import { singleSheet } from '../../testing/files.ts';
import { readDesign } from '../read-design.ts';

const read = (sections: string) => readDesign(`${singleSheet}\n${sections}`);

it('prints on A4, positive, mirrored and solid when nothing is said', () => {
  const { design } = read('');
  expect(design?.paper).toEqual({ size: 'a4', marginMm: 8, overlapMm: 10 });
  expect(design?.etchFilm).toEqual({ film: 'positive', mirror: true, fill: 'solid', measuredMm: { x: 100, y: 100 } });
});

it('takes what the builder says of paper and films', () => {
  const { design, findings } = read(`
[paper]
size = "letter"
margin = "6 mm"
overlap = "12 mm"
[etch]
film = "negative"
mirror = false
fill = "hatched"
measured = { x = "99.7 mm", y = "100.2 mm" }`);
  expect(findings).toEqual([]);
  expect(design?.paper).toEqual({ size: 'letter', marginMm: 6, overlapMm: 12 });
  expect(design?.etchFilm).toEqual({
    film: 'negative',
    mirror: false,
    fill: 'hatched',
    measuredMm: { x: 99.7, y: 100.2 },
  });
});

it.each([
  ['[paper]\nsize = "a3"', 'paper.size'],
  ['[paper]\noverlap = "2 mm"', 'paper.overlap'],
  ['[etch]\nmeasured = { x = "9.97 mm" }', 'etch.measured.x'],
  ['[etch]\nmirror = "yes"', 'etch.mirror'],
])('refuses %j at its place', (sections, path) => {
  const { design, findings } = read(sections);
  expect(design).toBeUndefined();
  expect(findings.map((finding) => finding.path)).toEqual([path]);
});
