import type { Point } from '../contour.ts';
import { distance, type Edge, lineEdge, requireFew } from './edge.ts';
import { DrawingFault } from './fault.ts';
import { JOIN_MM } from './join.ts';
import { apply, type Matrix } from './matrix.ts';
import { arcTo, cubicTo, quadraticTo } from './svg-curves.ts';

/** One run of a path from one move to the next. */
export interface SubPath {
  readonly edges: readonly Edge[];
  /** Closed by Z or by ending where it starts. */
  readonly closed: boolean;
}

const COUNTS: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, T: 2, A: 7, Z: 0 };
const NUMBER = /[\s,]*([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)/y;
const FLAG = /[\s,]*([01])/y;
const COMMAND = /[\s,]*([A-Za-z])/y;

interface Step {
  readonly command: string;
  readonly relative: boolean;
  readonly numbers: readonly number[];
}

/** The commands of path data with their numbers, repeated ones written out (SVG 1.1, 8.3.9). */
function readSteps(data: string): readonly Step[] {
  const steps: Step[] = [];
  let place = 0;
  const next = (pattern: RegExp): string | undefined => {
    pattern.lastIndex = place;
    const found = pattern.exec(data);
    if (found === null) return undefined;
    place = pattern.lastIndex;
    return found[1];
  };
  const numbersOf = (command: string): number[] | undefined => {
    const numbers: number[] = [];
    for (let i = 0; i < (COUNTS[command] ?? 0); i++) {
      // The two flags of an arc may stand together without a space.
      const text = next(command === 'A' && (i === 3 || i === 4) ? FLAG : NUMBER);
      if (text === undefined && i === 0) return undefined;
      if (text === undefined || !Number.isFinite(Number(text))) throw notPath(data, place);
      numbers.push(Number(text));
    }
    return numbers;
  };
  while (data.slice(place).trim() !== '') {
    const letter = next(COMMAND);
    const command = letter?.toUpperCase() ?? '';
    if (letter === undefined || COUNTS[command] === undefined) throw notPath(data, place);
    if (steps.length === 0 && command !== 'M') throw notPath(data, 0);
    const relative = letter !== command;
    const first = numbersOf(command);
    if (first === undefined) throw notPath(data, place);
    steps.push({ command, relative, numbers: first });
    if (command === 'Z') continue;
    // Pairs after a move are lines.
    const again = command === 'M' ? 'L' : command;
    for (let more = numbersOf(again); more !== undefined; more = numbersOf(again))
      steps.push({ command: again, relative, numbers: more });
  }
  return steps;
}

function notPath(data: string, place: number): DrawingFault {
  const near = JSON.stringify(data.slice(Math.max(0, place - 12), place + 12));
  return new DrawingFault('not-svg', `has path data that cannot be read near ${near}`, 'save the drawing as plain SVG');
}

/** Draws path data into edges in mm, through the matrix of its element. */
class PathPen {
  readonly subPaths: SubPath[] = [];
  readonly #toMm: Matrix;
  #edges: Edge[] = [];
  #count = 0;
  #start: Point = { x: 0, y: 0 };
  #at: Point = { x: 0, y: 0 };
  /** Control point of the curve before, for S and T, and the kind of curve it belongs to. */
  #control: { readonly at: Point; readonly of: 'C' | 'Q' } | undefined;

  constructor(toMm: Matrix) {
    this.#toMm = toMm;
  }

  step({ command, relative, numbers }: Step): void {
    const base = relative ? this.#at : { x: 0, y: 0 };
    const point = (i: number): Point => ({ x: base.x + (numbers[i] ?? 0), y: base.y + (numbers[i + 1] ?? 0) });
    switch (command) {
      case 'M':
        this.finish();
        this.#at = point(0);
        this.#start = this.#at;
        break;
      case 'L':
        this.#line(point(0));
        break;
      case 'H':
        this.#line({ x: base.x + (numbers[0] ?? 0), y: this.#at.y });
        break;
      case 'V':
        this.#line({ x: this.#at.x, y: base.y + (numbers[0] ?? 0) });
        break;
      case 'C':
        this.#cubic(point(0), point(2), point(4));
        return;
      case 'S':
        this.#cubic(this.#mirrored('C'), point(0), point(2));
        return;
      case 'Q':
        this.#quadratic(point(0), point(2));
        return;
      case 'T':
        this.#quadratic(this.#mirrored('Q'), point(0));
        return;
      case 'A':
        this.#arc(numbers, point(5));
        break;
      default:
        this.#close();
    }
    this.#control = undefined;
  }

  /** Ends the run that is being drawn; one that ends where it starts counts as closed. */
  finish(): void {
    const [first, last] = [this.#edges[0], this.#edges.at(-1)];
    if (first !== undefined && last !== undefined)
      this.subPaths.push({ edges: this.#edges, closed: distance(first.from, last.to) <= JOIN_MM });
    this.#edges = [];
  }

  /** Stops at the first edge too many: a short path can ask for millions. */
  #add(edges: readonly Edge[]): void {
    this.#count += edges.length;
    requireFew(this.#count);
    this.#edges.push(...edges);
  }
  #line(to: Point): void {
    this.#add([lineEdge(apply(this.#toMm, this.#at), apply(this.#toMm, to))]);
    this.#at = to;
  }
  #cubic(one: Point, two: Point, to: Point): void {
    this.#add(cubicTo([this.#at, one, two, to].map((p) => apply(this.#toMm, p))));
    this.#at = to;
    this.#control = { at: two, of: 'C' };
  }
  #quadratic(one: Point, to: Point): void {
    this.#add(quadraticTo([this.#at, one, to].map((p) => apply(this.#toMm, p))));
    this.#at = to;
    this.#control = { at: one, of: 'Q' };
  }
  #arc(numbers: readonly number[], to: Point): void {
    const [rx = 0, ry = 0, turnDeg = 0, large = 0, sweep = 0] = numbers;
    const arc = {
      from: this.#at,
      to,
      rx: Math.abs(rx),
      ry: Math.abs(ry),
      turnDeg,
      large: large === 1,
      sweep: sweep === 1,
    };
    this.#add(arcTo(arc, this.#toMm));
    this.#at = to;
  }
  #close(): void {
    if (this.#at.x !== this.#start.x || this.#at.y !== this.#start.y) this.#line(this.#start);
    this.#at = this.#start;
    this.finish();
  }
  #mirrored(kind: 'C' | 'Q'): Point {
    const control = this.#control?.of === kind ? this.#control.at : this.#at;
    return { x: 2 * this.#at.x - control.x, y: 2 * this.#at.y - control.y };
  }
}

/** The runs of path data in mm. Throws a DrawingFault for what is not path data. */
export function readPath(data: string, toMm: Matrix): readonly SubPath[] {
  const pen = new PathPen(toMm);
  for (const step of readSteps(data)) pen.step(step);
  pen.finish();
  return pen.subPaths;
}
