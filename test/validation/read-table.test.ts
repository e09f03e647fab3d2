/** Tables of measured patches as people hand them on: RFC 4180 (quoted fields, either line end), with a byte order mark or spaces. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { describeProblem } from './published-row.ts';
import { readTable } from './read-table.ts';

const HEAD =
  'case_id,patch_width_mm,resonant_length_mm,substrate_height_mm,relative_permittivity,measured_resonant_frequency_GHz';
const read = (...lines: string[]) => readTable(lines.join('\n'));

describe('a table of measured patches', () => {
  it('is read as it stands', () => {
    const { rows, problems } = read(HEAD, 'RP-K06,17.2,18.6,1.57,2.33,5.06');
    expect(problems).toEqual([]);
    expect(rows).toEqual([
      {
        caseId: 'RP-K06',
        set: 'RP-K',
        outline: { kind: 'rectangle', lengthMm: 18.6, widthMm: 17.2 },
        layers: [{ heightMm: 1.57, permittivity: 2.33 }],
        mode: [1, 0],
        measuredHz: 5.06e9,
        confidence: '',
        memoryStrength: '',
        source: '',
      },
    ]);
  });

  it('may have a byte order mark, the other line end, spaces, quotes, more columns in any order and empty lines', () => {
    const plain = read(HEAD, 'X-1,10,12,1,2.2,8').rows;
    const columns =
      ' resonant_length_mm , case_id,Patch_Width_mm,notes,relative_permittivity,substrate_height_mm,measured_resonant_frequency_GHz';
    const odd = `\uFEFF${columns}\r\n\r\n 12 ,"X-1", "10" ,"wide, ""thin""\r\nand long",2.2,1.0,8.00\r\n\r\n`;
    expect(readTable(odd)).toEqual({ rows: plain, problems: [] });
  });

  it('tells the line, the value and what is allowed, and keeps the good rows', () => {
    const { rows, problems } = read(
      HEAD,
      'A-1,10,12,1,2.2,8',
      'A-2,10,0,1,2.2,8',
      'A-3,10,12,1,0.9,8',
      'A-4,10,12,one,2.2,8',
      'A-5,10,12,1,2.2',
      ',10,12,1,2.2,8',
      'A-7,10,12,1,2.2,NaN',
    );
    expect(rows.map(({ caseId }) => caseId)).toEqual(['A-1']);
    expect(problems.map(({ line, column, value }) => [line, column, value])).toEqual([
      [3, 'resonant_length_mm', '0'],
      [4, 'relative_permittivity', '0.9'],
      [5, 'substrate_height_mm', 'one'],
      [6, 'measured_resonant_frequency_ghz', ''],
      [7, 'case_id', ''],
      [8, 'measured_resonant_frequency_ghz', 'NaN'],
    ]);
    const [first] = problems;
    expect(first && describeProblem('t.csv', first)).toBe(
      't.csv:3: resonant_length_mm: "0": allowed is a number from 0.01 to 10000; the row is skipped',
    );
  });

  it.each(['', '\n\n', HEAD, 'case_id,"open\nX,1', 'nothing,known\n1,2'])('without rows is a problem: %j', (text) => {
    const { rows, problems } = readTable(text);
    expect(rows).toEqual([]);
    expect(problems).toHaveLength(1);
  });
});

describe('other shapes', () => {
  it('discs, of the lowest mode unless the table says otherwise', () => {
    const head =
      'case_id,patch_radius_mm,substrate_height_mm,relative_permittivity,measured_resonant_frequency_GHz,mode';
    const { rows, problems } = read(
      head,
      'D-1,50,1.59,2.32,1.128,',
      'D-2,50,1.59,2.32,1.879,TM21',
      'D-3,50,1.59,2.32,2,HE1',
    );
    expect(rows.map(({ mode }) => mode)).toEqual([
      [1, 1],
      [2, 1],
    ]);
    expect(rows[0]?.outline).toEqual({ kind: 'disc', radiusMm: 50 });
    expect(problems.map(({ line, column }) => [line, column])).toEqual([[4, 'mode']]);
  });

  it('triangles with their modes', () => {
    const head =
      'case_id,equilateral_side_mm,substrate_height_mm,relative_permittivity,mode_m,mode_n,measured_resonant_frequency_GHz';
    const { rows, problems } = read(
      head,
      'T-1,100,1.59,2.32,1,0,1.28',
      'T-2,100,1.59,2.32,2,1,3.4',
      'T-3,100,1.59,2.32,0,0,3',
    );
    expect(rows.map(({ mode }) => mode)).toEqual([
      [1, 0],
      [2, 1],
    ]);
    expect(problems).toHaveLength(1);
  });

  it('layers, with and without air', () => {
    const head =
      'case_id,driven_shape,driven_width_mm,driven_length_mm,layers_ground_to_driven,upper_shape,measured_resonance_GHz,mode';
    const { rows, problems } = read(
      head,
      'L-1,circle radius 50.0 mm,,,air 0.5 mm then dielectric 1.59 mm er=2.32,,2.136,TM21',
      'L-2,circle radius 50.0 mm,,,air 0.0 mm then dielectric 1.59 mm er=2.32,,1.128,TM11',
      'L-3,rectangle,30,25,foam 6.6 mm er about 1.08,,4.53,',
      'L-4,rectangle,30,25,two boards,,4.53,',
      'L-5,rectangle,12.5,13.5,dielectric 3.048 mm er=2.2 loss tangent 0.001,rectangle,6.2,',
      'L-6,star,,,air 3 mm,,6.2,',
    );
    expect(rows.map(({ layers }) => layers)).toEqual([
      [
        { heightMm: 0.5, permittivity: 1 },
        { heightMm: 1.59, permittivity: 2.32 },
      ],
      [{ heightMm: 1.59, permittivity: 2.32 }],
      [{ heightMm: 6.6, permittivity: 1.08 }],
    ]);
    expect(problems.map(({ line, column }) => [line, column])).toEqual([
      [5, 'layers_ground_to_driven'],
      [6, 'upper_shape'],
      [7, 'driven_shape'],
    ]);
  });
});

it('the tables of the project can all be read, and each row names its source and how sure it is', () => {
  const folder = join(dirname(fileURLToPath(import.meta.url)), '..', 'published', 'tables');
  for (const name of readdirSync(folder)) {
    const { rows, problems } = readTable(readFileSync(join(folder, name), 'utf8'));
    expect(problems, name).toEqual([]);
    expect(rows.length, name).toBeGreaterThan(5);
    expect(
      rows.filter(({ source, confidence }) => source === '' || confidence === ''),
      name,
    ).toEqual([]);
  }
});
