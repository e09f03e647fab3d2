import { expect, test } from 'vitest';
import { readDesign } from '../read-design.ts';
import { renderFinding } from '../render-finding.ts';

const RECTANGLE = 'shape = "rectangle"\nlength = "22 mm"\nwidth = "26 mm"\n';
const U = 'kind = "u", arm = "12 mm", base = "10 mm", width = "1 mm", offset = "3 mm"';
const E = 'kind = "e", length = "14 mm", spacing = "9 mm", width = "1 mm"';

function said(shape: string, { feed = '4 mm', carrier = 'sheet = "brass-0.5"', targets = '' } = {}): readonly string[] {
  const text = `format = 1
name = "Shapes"
[band]
low = "5.7 GHz"
high = "5.9 GHz"
${targets}
[reflector]
sheet = "brass-1.0"
[[layer]]
${shape}
${carrier}
spacer = "m3-mf-5-brass"
process = "laser"
[feed]
from_edge = "${feed}"
[coax]
stock = "semi-rigid-141"
`;
  return readDesign(text).findings.map((finding) => renderFinding(finding).replace(/^line .*?: /, ''));
}

test.each([
  ['plain', RECTANGLE],
  ['round', `${RECTANGLE}corner_radius = "11 mm"`],
  ['U', `${RECTANGLE}slot = { ${U} }`],
  ['E', `${RECTANGLE}slot = { ${E} }`],
  ['triangle', 'shape = "triangle"\nside = "30 mm"'],
])('%s: nothing to say', (_, shape) => {
  expect(said(shape)).toEqual([]);
});

test.each([
  [`${RECTANGLE}corner_radius = "11.1 mm"`, /corner_radius: 11\.1 mm .*give less than 11 mm/],
  [`${RECTANGLE}cut_corners = { corners = "all", size = "11 mm" }`, /cut_corners\.size: 11 mm/],
  [`${RECTANGLE}corner_radius = "1 mm"\ncut_corners = { corners = "all", size = "2 mm" }`, /leave one of them out/],
  [
    `${RECTANGLE}cut_corners = { corners = "opposite", size = "2 mm" }`,
    /which two opposite corners.*hand = "right-hand"/,
  ],
  [`${RECTANGLE}cut_corners = { corners = "three", size = "2 mm" }`, /"opposite" or "all"/],
  [`${RECTANGLE}slot = { kind = "w" }`, /"u" or "e"/],
  [`${RECTANGLE}slot = { ${U.replace('12 mm', '19 mm')} }`, /slot\.arm: 19 mm reaches the edge/],
  [`${RECTANGLE}slot = { ${U.replace('12 mm', '1 mm')} }`, /slot\.arm: 1 mm is no arm/],
  [
    `${RECTANGLE}slot = { ${U.replace('12 mm', '1.4 mm')}, end_radius = "0.5 mm" }`,
    /slot\.arm: 1\.4 mm is too short for the end of the slot, which is rounded to 0\.5 mm; give at least 1\.5 mm/,
  ],
  [
    `${RECTANGLE}slot = { ${E.replace('14 mm', '0.3 mm')}, end_radius = "0.5 mm" }`,
    /slot\.length: 0\.3 mm is too short .*give at least 0\.5 mm/,
  ],
  [`${RECTANGLE}slot = { ${U.replace('10 mm', '2 mm')} }`, /slot\.base: 2 mm leaves nothing between the arms/],
  [`${RECTANGLE}slot = { ${U.replace('10 mm', '26 mm')} }`, /slot\.base: 26 mm is not narrower/],
  [`${RECTANGLE}slot = { ${U.replace('"1 mm"', '"0.2 mm"')} }`, /slot\.width: 0\.2 mm is not wider than the cut/],
  [`${RECTANGLE}slot = { ${U}, end_radius = "0.6 mm" }`, /end_radius: 0\.6 mm.*at most 0\.5 mm/],
  [`${RECTANGLE}slot = { ${E.replace('14 mm', '22 mm')} }`, /slot\.length: 22 mm cuts the patch apart/],
  [`${RECTANGLE}slot = { ${E.replace('9 mm', '1 mm')} }`, /slot\.spacing: 1 mm makes the two slots one/],
  [`${RECTANGLE}slot = { ${E.replace('9 mm', '25 mm')} }`, /slot\.spacing: 25 mm puts the slots over/],
  ['shape = "ring"\nouter_diameter = "20 mm"\ninner_diameter = "8 mm"', /has no metal at its centre/],
  ['shape = "outline"\nfile = "wing.dxf"', /"wing\.dxf" was not given/],
])('%s', (shape, message) => {
  const found = said(shape);
  expect(found).toHaveLength(1);
  expect(found[0]).toMatch(message);
});

test('a feed counts from the first metal on the centre line and must not go past what lies there', () => {
  const ring = 'shape = "ring"\nouter_diameter = "20 mm"\ninner_diameter = "8 mm"';
  const board = 'board = "ptfe-glass-0.787-35"';
  expect(said(ring, { carrier: board, feed: '6.1 mm' })[0]).toMatch(
    /6\.1 mm is in the opening of the driven ring; give at most 6 mm/,
  );
  // Height of an equilateral triangle: half of the square root of 3 times its side.
  expect(said('shape = "triangle"\nside = "20 mm"', { feed: '18 mm' })[0]).toMatch(/beyond the corner.*17\.32/);
});

test('the target decides which corners are cut, and is held against what they give', () => {
  const cut = `${RECTANGLE}cut_corners = { corners = "opposite", size = "2 mm" }`;
  const target = (word: string) => ({ targets: `[targets]\npolarisation = "${word}"` });
  expect(said(cut, target('right-hand'))).toEqual([]);
  expect(said(cut.replace(' }', ', hand = "left-hand" }'), target('right-hand'))[0]).toMatch(
    /differs .* which is left-hand/,
  );
  expect(said(RECTANGLE, target('right-hand'))[0]).toMatch(/which is vertical; give .*cut_corners/);
  expect(said(cut.replace(' }', ', hand = "left-hand" }'), target('vertical'))[0]).toMatch(/leave cut_corners out/);
});
