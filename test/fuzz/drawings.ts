import { brokenText } from './change-text.ts';
import type { Random } from './random.ts';

/** A drawing beside the design. */
export interface Drawing {
  readonly name: string;
  readonly text: string;
}

type Spot = readonly [number, number];

/** A drawing of an outline: often sound, sometimes crossing itself, open, doubled, tiny, huge, or spoilt as text. */
export function randomDrawing(random: Random): Drawing {
  const sound = random.chance(0.6);
  const drawing = random.chance(0.5) ? svgDrawing(random, sound) : dxfDrawing(random, sound);
  return !sound && random.chance(0.4) ? { ...drawing, text: brokenText(random, drawing.text) } : drawing;
}

interface Ring {
  readonly centre: Spot;
  readonly size: number;
  readonly sound: boolean;
}

/** Corners around a centre; star-shaped unless they are shuffled. */
function loop(random: Random, { centre, size, sound }: Ring): readonly Spot[] {
  const count = random.pick([4, 5, 8, 20, 120]);
  const wobble = random.pick(sound ? [0, 0.1, 0.2] : [0, 0.2, 0.8]);
  const corners = Array.from({ length: count }, (_, i): Spot => {
    const [angle, radius] = [(2 * Math.PI * i) / count, size * (1 - wobble * random.next())];
    return [round(centre[0] + radius * Math.cos(angle)), round(centre[1] + radius * Math.sin(angle))];
  });
  return !sound && random.chance(0.3) ? [...corners].sort(() => (random.chance(0.5) ? 1 : -1)) : corners;
}

const round = (value: number): number => Number(value.toFixed(3));

/** An outside and now and then cut-outs, in an unsound drawing also where they must not be. */
function loops(random: Random, sound: boolean): readonly (readonly Spot[])[] {
  const size = random.pick(sound ? [13, 14, 15] : [14, 14, 0.1, 300, 5000]);
  const cutouts = Array.from({ length: random.pick([0, 0, 0, 1, 2]) }, (_, index) => {
    const [angle, far] = [index * 2, size * random.between(0.4, 0.55)];
    const centre: Spot = sound
      ? [far * Math.cos(angle), far * Math.sin(angle)]
      : [random.between(-0.6, 0.6) * size, random.between(-0.6, 0.6) * size];
    return loop(random, { centre, size: size * random.between(0.05, sound ? 0.12 : 0.4), sound });
  });
  return [loop(random, { centre: [0, 0], size, sound }), ...cutouts];
}

const REAL_PAGE = 'width="40mm" height="40mm" viewBox="-20 -20 40 40"';

function svgDrawing(random: Random, sound: boolean): Drawing {
  const path = loops(random, sound)
    .map((corners) => pathOf(random, corners, sound))
    .join(' ');
  const size = random.pick(
    sound
      ? [REAL_PAGE]
      : [
          'width="40mm" height="40mm" viewBox="-20 -20 40 40"',
          'width="4cm" height="4cm" viewBox="-20 -20 40 40"',
          'viewBox="0 0 40 40"',
          'width="40" height="40"',
        ],
  );
  const turn = random.pick(
    sound
      ? ['', ' transform="rotate(30)"', ' transform="translate(2 3)"']
      : [
          '',
          '',
          ' transform="rotate(30)"',
          ' transform="scale(1,-1) translate(2 3)"',
          ' transform="matrix(1 .2 0 1 0 0)"',
          ' transform="scale(0)"',
        ],
  );
  return {
    name: 'wing.svg',
    text: `<svg xmlns="http://www.w3.org/2000/svg" ${size}>\n<g${turn}><path d="${path}"/></g>\n</svg>\n`,
  };
}

function pathOf(random: Random, corners: readonly Spot[], sound: boolean): string {
  const steps = corners.map((corner, index) => (index === 0 ? `M${corner}` : stepTo(random, corner)));
  return `${steps.join(' ')}${sound || random.chance(0.9) ? ' Z' : ''}`;
}

function stepTo(random: Random, [x, y]: Spot): string {
  if (random.chance(0.9)) return `L${x},${y}`;
  const near = () => `${round(x + random.between(-2, 2))},${round(y + random.between(-2, 2))}`;
  return random.pick([
    () => `C${near()} ${near()} ${x},${y}`,
    () => `Q${near()} ${x},${y}`,
    () =>
      `A${round(random.between(0, 20))} ${round(random.between(0, 20))} ${random.whole(0, 90)} ${random.whole(0, 1)} ${random.whole(0, 1)} ${x},${y}`,
    () => `H${x} V${y}`,
    () => `l0,0 L${x},${y}`,
  ])();
}

function dxfDrawing(random: Random, sound: boolean): Drawing {
  const all = loops(random, sound);
  const entities = all.map((corners, index) =>
    index > 0 && random.chance(0.5) ? circleOf(random, corners) : curveOf(random, corners, sound),
  );
  const units = random.pick(sound ? [[4]] : [[4], [4], [4], [1], [0], []]);
  const header = units.map((unit) => tags([0, 'SECTION'], [2, 'HEADER'], [9, '$INSUNITS'], [70, unit], [0, 'ENDSEC']));
  const body = tags([0, 'SECTION'], [2, 'ENTITIES']) + entities.join('') + tags([0, 'ENDSEC'], [0, 'EOF']);
  return { name: 'wing.dxf', text: header.join('') + body };
}

const tags = (...pairs: readonly (readonly [number, string | number])[]): string =>
  pairs.map(([code, value]) => `${code}\n${value}\n`).join('');

function circleOf(random: Random, [first]: readonly Spot[]): string {
  const [x, y] = first ?? [0, 0];
  return tags([0, 'CIRCLE'], [8, '0'], [10, x], [20, y], [40, round(random.between(0, 3))]);
}

function curveOf(random: Random, corners: readonly Spot[], sound: boolean): string {
  if (random.chance(0.3)) return linesOf(corners);
  const head = tags([0, 'LWPOLYLINE'], [8, '0'], [90, corners.length], [70, sound || random.chance(0.9) ? 1 : 0]);
  return (
    head +
    corners
      .map(([x, y]) =>
        tags(
          [10, x],
          [20, y],
          ...(random.chance(0.1)
            ? [[42, round(sound ? random.between(0, 0.4) : random.between(-1.5, 1.5))] as const]
            : []),
        ),
      )
      .join('')
  );
}

function linesOf(corners: readonly Spot[]): string {
  return corners
    .map(([x, y], index) => {
      const [toX, toY] = corners[(index + 1) % corners.length] ?? [x, y];
      return tags([0, 'LINE'], [8, '0'], [10, x], [20, y], [11, toX], [21, toY]);
    })
    .join('');
}
