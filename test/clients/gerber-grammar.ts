import { createHash } from 'node:crypto';

/** A filled contour, stroke or pad as the file has it, in mm. Area is positive whichever way the contour runs. */
export interface GerberRegion {
  readonly polarity: 'dark' | 'clear';
  readonly areaMm2: number;
  readonly apertureFunction: string;
}
export interface GerberFlash {
  readonly xMm: number;
  readonly yMm: number;
  readonly diameterMm: number;
  readonly apertureFunction: string;
}
export interface GerberImage {
  readonly attributes: Readonly<Record<string, readonly string[]>>;
  readonly comments: readonly string[];
  readonly regions: readonly GerberRegion[];
  readonly flashes: readonly GerberFlash[];
  /** Closed or open paths drawn with an aperture. */
  readonly strokes: number;
}

interface Place {
  readonly x: number;
  readonly y: number;
}

/** One unit of the grid in mm: six decimals. */
const UNIT = 1e-6;

/**
 * Reads a Gerber X2 file by a small strict grammar and throws at the first thing that is not in it: the subset of the
 * Gerber Layer Format Specification (revision 2023.08, chapters 3 to 5; rules confirmed or recalled there) that copper,
 * mask, legend and profile files need. Stricter than real readers, so that the pickiest of them finds nothing.
 */
export function readGerber(bytes: Uint8Array): GerberImage {
  const text = new TextDecoder().decode(bytes);
  if (/[^\n -~]/.test(text)) throw new Error('not plain ASCII');
  checkCounts(text);
  checkSum(text);
  const reader = new Reader();
  for (const line of text.trimEnd().split('\n')) reader.command(line);
  return reader.finish();
}

function checkCounts(text: string): void {
  for (const [name, pattern] of [
    ['FS', /%FS/g],
    ['MO', /%MO/g],
    ['M02', /M02\*/g],
    ['.FileFunction', /%TF\.FileFunction,/g],
    ['.FilePolarity', /%TF\.FilePolarity,/g],
    ['.SameCoordinates', /%TF\.SameCoordinates,/g],
  ] as const) {
    const count = text.match(pattern)?.length ?? 0;
    if (count !== 1) throw new Error(`${count} times ${name}`);
  }
  if (!text.endsWith('M02*\n')) throw new Error('M02 is not the last command');
}

function checkSum(text: string): void {
  const [before, after] = text.split('%TF.MD5,');
  if (after === undefined) return;
  const sum = createHash('md5')
    .update((before ?? '').replaceAll('\n', ''))
    .digest('hex');
  if (after !== `${sum}*%\nM02*\n`) throw new Error('the checksum is wrong or not the last attribute');
}

class Reader {
  readonly #attributes: Record<string, string[]> = {};
  readonly #comments: string[] = [];
  readonly #apertures = new Map<number, { readonly diameterMm: number; readonly apertureFunction: string }>();
  readonly #regions: GerberRegion[] = [];
  readonly #flashes: GerberFlash[] = [];
  #strokes = 0;
  #function = '';
  #polarity: 'dark' | 'clear' = 'dark';
  #format = false;
  #unit = false;
  #arcsAllowed = false;
  #mode: 'G01' | 'G02' | 'G03' | undefined;
  #aperture: number | undefined;
  #at: Place | undefined;
  #region: { start: Place; area: number; steps: number } | undefined;
  #inRegion = false;
  #ended = false;

  command(line: string): void {
    if (this.#ended) throw new Error(`after the end: ${line}`);
    for (const [pattern, act] of this.#grammar) {
      const match = pattern.exec(line);
      if (match === null) continue;
      act(match);
      return;
    }
    throw new Error(`not in the grammar: ${line}`);
  }

  finish(): GerberImage {
    if (!this.#ended || this.#inRegion) throw new Error('the file ends inside a region or without M02');
    return {
      attributes: this.#attributes,
      comments: this.#comments,
      regions: this.#regions,
      flashes: this.#flashes,
      strokes: this.#strokes,
    };
  }

  readonly #grammar: readonly (readonly [RegExp, (match: RegExpExecArray) => void])[] = [
    [/^G04 ([^*%]*)\*$/, ([, text = '']) => this.#comments.push(text)],
    [/^%TF(\.[A-Za-z0-9]+)((?:,[^,*%]+)+)\*%$/, ([, name = '', fields = '']) => this.#fileAttribute(name, fields)],
    [/^%TA\.AperFunction,([^*%]+)\*%$/, ([, name = '']) => this.#setFunction(name)],
    [/^%TD\*%$/, () => this.#setFunction('')],
    [/^%FSLAX46Y46\*%$/, () => this.#header(() => (this.#format = true))],
    [/^%MOMM\*%$/, () => this.#header(() => (this.#unit = true))],
    [/^%LP([DC])\*%$/, ([, letter]) => this.#setPolarity(letter === 'D' ? 'dark' : 'clear')],
    [/^%ADD(\d+)C,(\d+\.\d+)\*%$/, ([, code, size]) => this.#define(Number(code), Number(size))],
    [/^D(\d\d+)\*$/, ([, code]) => this.#select(Number(code))],
    [/^G75\*$/, () => (this.#arcsAllowed = true)],
    [/^(G01|G02|G03)\*$/, ([, mode]) => (this.#mode = mode as 'G01' | 'G02' | 'G03')],
    [/^G36\*$/, () => this.#openRegion()],
    [/^G37\*$/, () => this.#closeRegion()],
    [/^X(-?\d+)Y(-?\d+)D02\*$/, ([, x, y]) => this.#move({ x: Number(x), y: Number(y) })],
    [/^X(-?\d+)Y(-?\d+)D03\*$/, ([, x, y]) => this.#flash({ x: Number(x), y: Number(y) })],
    [/^X(-?\d+)Y(-?\d+)D01\*$/, ([, x, y]) => this.#line({ x: Number(x), y: Number(y) })],
    [
      /^X(-?\d+)Y(-?\d+)I(-?\d+)J(-?\d+)D01\*$/,
      ([, x, y, i, j]) => this.#arc({ x: Number(x), y: Number(y) }, { x: Number(i), y: Number(j) }),
    ],
    [
      /^M02\*$/,
      () => {
        this.#ended = true;
      },
    ],
  ];

  #fileAttribute(name: string, fields: string): void {
    if (name in this.#attributes) throw new Error(`${name} twice`);
    this.#attributes[name] = fields.slice(1).split(',');
  }

  #header(act: () => void): void {
    if (this.#mode !== undefined || this.#at !== undefined) throw new Error('format or unit after the first graphic');
    act();
  }

  #setFunction(name: string): void {
    if (this.#inRegion) throw new Error('an attribute inside a region');
    this.#function = name;
  }

  #setPolarity(polarity: 'dark' | 'clear'): void {
    if (this.#inRegion) throw new Error('polarity inside a region');
    this.#polarity = polarity;
  }

  #define(code: number, diameterMm: number): void {
    if (code < 10 || this.#apertures.has(code)) throw new Error(`aperture ${code} is reserved or defined twice`);
    for (const known of this.#apertures.values())
      if (known.diameterMm === diameterMm && known.apertureFunction === this.#function)
        throw new Error(`two apertures of ${diameterMm} mm for ${this.#function}`);
    this.#apertures.set(code, { diameterMm, apertureFunction: this.#function });
  }

  #select(code: number): void {
    if (!this.#apertures.has(code)) throw new Error(`aperture ${code} is not defined`);
    this.#aperture = code;
  }

  #openRegion(): void {
    if (this.#inRegion) throw new Error('a region inside a region');
    this.#inRegion = true;
    this.#region = undefined;
  }

  #closeRegion(): void {
    if (!this.#inRegion || this.#region === undefined) throw new Error('a region without a contour');
    this.#closeContour(this.#region);
    this.#inRegion = false;
    this.#region = undefined;
  }

  #closeContour({ start, area, steps }: { start: Place; area: number; steps: number }): void {
    if (steps < 2 || this.#at?.x !== start.x || this.#at.y !== start.y)
      throw new Error(`a contour that starts at (${start.x}, ${start.y}) does not return there`);
    const areaMm2 = Math.abs(area) * UNIT * UNIT;
    this.#regions.push({ polarity: this.#polarity, areaMm2, apertureFunction: this.#function });
  }

  #move(to: Place): void {
    this.#ready();
    if (this.#inRegion && this.#region !== undefined) this.#closeContour(this.#region);
    if (this.#inRegion) this.#region = { start: to, area: 0, steps: 0 };
    this.#at = to;
  }

  #flash(to: Place): void {
    this.#ready();
    const aperture = this.#aperture === undefined ? undefined : this.#apertures.get(this.#aperture);
    if (this.#inRegion || aperture === undefined) throw new Error('a flash inside a region or without aperture');
    this.#flashes.push({ xMm: to.x * UNIT, yMm: to.y * UNIT, ...aperture });
    this.#at = to;
  }

  #line(to: Place): void {
    if (this.#mode !== 'G01') throw new Error('a draw that is not linear has no centre');
    const from = this.#step(to);
    this.#add((from.x * to.y - from.y * to.x) / 2);
  }

  #arc(to: Place, offset: Place): void {
    if (this.#mode === 'G01' || !this.#arcsAllowed) throw new Error('an arc in linear mode or before G75');
    const from = this.#step(to);
    const centre = { x: from.x + offset.x, y: from.y + offset.y };
    const [r0, r1] = [Math.hypot(offset.x, offset.y), Math.hypot(to.x - centre.x, to.y - centre.y)];
    if (Math.abs(r0 - r1) > 2) throw new Error(`an arc with radii ${r0} and ${r1}`);
    const turn = sweep(from, to, { centre, ccw: this.#mode === 'G03' });
    if (Math.abs(turn) > Math.PI * 1.000001) throw new Error('an arc of more than half a turn');
    const radius = (r0 + r1) / 2;
    this.#add((from.x * to.y - from.y * to.x) / 2 + (radius ** 2 * (turn - Math.sin(turn))) / 2);
  }

  #step(to: Place): Place {
    this.#ready();
    const from = this.#at;
    if (from === undefined) throw new Error('a draw from nowhere');
    if (from.x === to.x && from.y === to.y) throw new Error(`a draw of no length at (${to.x}, ${to.y})`);
    if (!this.#inRegion && this.#aperture === undefined) throw new Error('a stroke without aperture');
    if (this.#inRegion && this.#region === undefined) throw new Error('a contour without a first point');
    if (!this.#inRegion) this.#strokes += 1;
    this.#at = to;
    return from;
  }

  #add(area: number): void {
    if (this.#region === undefined) return;
    this.#region.area += area;
    this.#region.steps += 1;
  }

  #ready(): void {
    if (!this.#format || !this.#unit) throw new Error('a graphic before format and unit');
  }
}

function sweep(from: Place, to: Place, about: { readonly centre: Place; readonly ccw: boolean }): number {
  const { centre, ccw } = about;
  const start = Math.atan2(from.y - centre.y, from.x - centre.x);
  const turn = Math.atan2(to.y - centre.y, to.x - centre.x) - start;
  const whole = 2 * Math.PI;
  const left = turn - whole * Math.floor(turn / whole);
  return ccw ? left : left - whole;
}
