import { readTouchstone, type TouchstoneFile } from '@sheetwave/bench';
import { impedanceOf, magnitude } from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';

/*
 * Touchstone File Format Specification, versions 1.1 (2002) and 2.0 (2009) of the I/O Buffer Information Specification forum. The rules were
 * read in copies of the text and in the tests of independent readers (confirmed); the worked examples are from memory unless said otherwise,
 * and hold together: what version 1.1 gives normalised, version 2.0 gives in ohms.
 */

function read(text: string, name?: string): TouchstoneFile {
  const reading = readTouchstone(text, name === undefined ? {} : { name });
  expect(reading.findings).toEqual([]);
  if (!reading.ok) throw new Error('not read');
  return reading.file;
}

const degrees = (value: { re: number; im: number }) => (Math.atan2(value.im, value.re) * 180) / Math.PI;

describe('option line', () => {
  it('may have its words in any case, and dB with degrees (confirmed)', () => {
    const { response } = read('# MHZ s db r 75\n100 -20 90\n');
    expect(response.freqHz).toEqual([1e8]);
    expect(response.referenceOhm).toBe(75);
    expect(response.s[0]?.[0]?.[0]?.re).toBeCloseTo(0, 12);
    expect(response.s[0]?.[0]?.[0]?.im).toBeCloseTo(0.1, 12);
  });

  it('stands for GHz S MA R 50 where words are missing (confirmed)', () => {
    const { response, unit, parameter, format } = read('#\n2 0.5 180\n');
    expect([unit, parameter, format, response.referenceOhm]).toEqual(['GHz', 'S', 'MA', 50]);
    expect(response.freqHz).toEqual([2e9]);
    expect(response.s[0]?.[0]?.[0]?.re).toBeCloseTo(-0.5, 12);
  });

  it('counts once: later ones are ignored (confirmed)', () => {
    const reading = readTouchstone('# MHz S RI R 50\n# GHz S MA R 75\n100 0.1 0.2\n');
    expect(reading.ok && reading.file.response.freqHz).toEqual([1e8]);
    expect(reading.findings.map(({ code, severity }) => [code, severity])).toEqual([['second-option-line', 'note']]);
  });
});

describe('examples', () => {
  it('one port, one frequency', () => {
    const { response } = read(
      '! 1-port S-parameter file, single frequency point\n# MHz S MA R 50\n!freq magS11 angS11\n2.000 0.894 -12.136\n',
      'example.s1p',
    );
    const gamma = response.s[0]?.[0]?.[0] ?? { re: 0, im: 0 };
    expect(magnitude(gamma)).toBeCloseTo(0.894, 12);
    expect(degrees(gamma)).toBeCloseTo(-12.136, 12);
  });

  const OHMS = [74.25, 60, 53.025, 30, 0.75];
  const impedances = ({ response }: TouchstoneFile) =>
    response.s.map((m) => magnitude(impedanceOf(m[0]?.[0] ?? { re: 0, im: 0 }, response.referenceOhm)));

  it('one port in Z: version 1.1 divides by the reference', () => {
    // 0.99 x 75 ohm = 74.25 ohm and so on.
    const file = read('# MHz Z MA R 75\n100 0.99 -4\n200 0.80 -22\n300 0.707 -45\n400 0.40 -62\n500 0.01 -89\n');
    impedances(file).forEach((ohm, i) => {
      expect(ohm).toBeCloseTo(OHMS[i] ?? 0, 9);
    });
  });

  it('the same in version 2.0: ohms, whatever the reference', () => {
    const file = read(
      '[Version] 2.0\n# MHz Z MA\n[Number of Ports] 1\n[Number of Frequencies] 5\n[Reference] 20.0\n[Network Data]\n100 74.25 -4\n200 60 -22\n300 53.025 -45\n400 30 -62\n500 0.75 -89\n[End]\n',
    );
    expect(file.response.referenceOhm).toBe(20);
    impedances(file).forEach((ohm, i) => {
      expect(ohm).toBeCloseTo(OHMS[i] ?? 0, 9);
    });
  });

  it('two ports in one line: N11 N21 N12 N22; then noise, where the frequency falls', () => {
    const file = read(
      '# GHZ S MA R 50\n! NETWORK PARAMETERS\n2 .95 -26 3.57 157 .04 76 .66 -14\n22 .60 -144 1.30 40 .14 40 .56 -85\n! NOISE PARAMETERS\n4 .7 .64 69 .38\n18 2.7 .46 -33 .40\n',
      'device.s2p',
    );
    const [first] = file.response.s;
    expect(magnitude(first?.[1]?.[0] ?? { re: 0, im: 0 })).toBeCloseTo(3.57, 12);
    expect(magnitude(first?.[0]?.[1] ?? { re: 0, im: 0 })).toBeCloseTo(0.04, 12);
    // 0.38 x 50 ohm
    expect(file.noise.map(({ resistanceOhm }) => resistanceOhm)).toEqual([19, 20]);
    expect(file.noise.map(({ freqHz }) => freqHz)).toEqual([4e9, 18e9]);
  });

  it('the same in version 2.0: noise resistance in ohms', () => {
    const file = read(
      '[Version] 2.0\n# GHz S MA R 50\n[Number of Ports] 2\n[Two-Port Data Order] 21_12\n[Number of Frequencies] 2\n[Number of Noise Frequencies] 2\n[Reference] 50 50\n[Network Data]\n2 .95 -26 3.57 157 .04 76 .66 -14\n22 .60 -144 1.30 40 .14 40 .56 -85\n[Noise Data]\n4 .7 .64 69 19\n18 2.7 .46 -33 20\n[End]\n',
    );
    expect(file.noise.map(({ resistanceOhm }) => resistanceOhm)).toEqual([19, 20]);
  });

  it('four ports, a row a line', () => {
    const file = read(
      '# GHz S MA R 50\n5.00000 0.60 161.24 0.40 -42.20 0.42 -66.58 0.53 -79.34 !row 1\n0.41 -42.20 0.60 161.20 0.53 -79.34 0.42 -66.58 !row 2\n0.43 -66.58 0.53 -79.34 0.60 161.24 0.40 -42.20 !row 3\n0.54 -79.34 0.42 -66.58 0.40 -42.20 0.60 161.24 !row 4\n',
      'a.s4p',
    );
    const first = file.response.s[0] ?? [];
    expect(first.map((row) => Math.round(magnitude(row[0] ?? { re: 0, im: 0 }) * 100))).toEqual([60, 41, 43, 54]);
  });
});

describe('keywords', () => {
  const twoPort = (order: string) =>
    `[Version] 2.0\n# GHz S MA\n[Number of Ports] 2\n[Two-Port Data Order] ${order}\n[Number of Frequencies] 1\n[Network Data]\n1 .11 0 .21 0 .12 0 .22 0\n[End]\n`;
  const parts = (text: string) => read(text).response.s[0]?.map((row) => row.map(({ re }) => re));

  it('give the order of a two-port (confirmed by four independent readers)', () => {
    expect(parts(twoPort('21_12'))).toEqual([
      [0.11, 0.12],
      [0.21, 0.22],
    ]);
    expect(parts(twoPort('12_21'))).toEqual([
      [0.11, 0.21],
      [0.12, 0.22],
    ]);
  });

  it('give half a symmetric matrix, row by row (confirmed)', () => {
    const head =
      '[Version] 2.0\n# GHz S RI\n[Number of Ports] 3\n[Number of Frequencies] 1\n[Begin Information]\n# this is not an option line\n[End Information]\n';
    const full = [
      [0.11, 0.21, 0.31],
      [0.21, 0.22, 0.32],
      [0.31, 0.32, 0.33],
    ];
    expect(
      parts(`${head}[Matrix Format] Lower\n[Network Data]\n1 .11 0\n.21 0 .22 0\n.31 0 .32 0 .33 0\n[End]\n`),
    ).toEqual(full);
    expect(
      parts(`${head}[matrix format] UPPER\n[network data]\n1 .11 0 .21 0 .31 0\n.22 0 .32 0\n.33 0\n[END]\n`),
    ).toEqual(full);
  });

  it('give each port its reference: a through between 50 and 75 ohm is a through at 50 ohm', () => {
    // S11 = (75 - 50)/125 = 0.2, S21 = 2 sqrt(50 x 75)/125 (computed).
    const through = (2 * Math.sqrt(50 * 75)) / 125;
    const file = read(
      `[Version] 2.0\n# GHz S RI\n[Number of Ports] 2\n[Two-Port Data Order] 12_21\n[Number of Frequencies] 1\n[Reference] 50\n75\n[Network Data]\n1 0.2 0 ${through} 0 ${through} 0 -0.2 0\n[End]\n`,
    );
    const [[s11, s12] = [], [s21, s22] = []] = file.response.s[0] ?? [];
    for (const [value, wanted] of [
      [s11, 0],
      [s12, 1],
      [s21, 1],
      [s22, 0],
    ] as const) {
      expect(value?.re).toBeCloseTo(wanted, 12);
    }
    expect(file.referenceOhm).toEqual([50, 75]);
  });
});

describe('parameters', () => {
  /*
   * The tee attenuator of Pozar, Microwave Engineering, example 4.4: 8.56 ohm in both arms, 141.8 ohm across: matched to 50 ohm, S21 = 0.707
   * (memory). Z by inspection; Y, H and G from it by their definitions: h11 = Z11 - Z12 Z21/Z22, h12 = Z12/Z22, h21 = -Z21/Z22, h22 = 1/Z22;
   * g11 = 1/Z11, g12 = -Z12/Z11, g21 = Z21/Z11, g22 = Z22 - Z12 Z21/Z11.
   */
  const [za, zm] = [8.56 + 141.8, 141.8];
  // Pozar's own sum: 141.8 ohm beside 58.56 ohm is 41.44 ohm, so 41.44/(41.44 + 8.56) of the voltage, and of that 50/(50 + 8.56).
  const transmission = (41.44 / (41.44 + 8.56)) * (50 / (50 + 8.56));
  const determinant = za * za - zm * zm;
  const MATRICES = {
    Z: [za, zm, zm, za],
    Y: [za / determinant, -zm / determinant, -zm / determinant, za / determinant],
    H: [determinant / za, zm / za, -zm / za, 1 / za],
    G: [1 / za, -zm / za, zm / za, determinant / za],
  } as const;

  it.each(['Z', 'Y', 'H', 'G'] as const)('%s of one attenuator give its S', (kind) => {
    const [a, b, c, d] = MATRICES[kind];
    const text = `[Version] 2.0\n# MHz ${kind} RI\n[Number of Ports] 2\n[Two-Port Data Order] 12_21\n[Number of Frequencies] 1\n[Reference] 50 50\n[Network Data]\n1 ${a} 0 ${b} 0 ${c} 0 ${d} 0\n[End]\n`;
    // Version 1.1: normalised to 50 ohm, and N21 before N12.
    const ohms = {
      Z: [50, 50, 50, 50],
      Y: [1 / 50, 1 / 50, 1 / 50, 1 / 50],
      H: [50, 1, 1, 1 / 50],
      G: [1 / 50, 1, 1, 50],
    }[kind];
    const [r11 = 1, r12 = 1, r21 = 1, r22 = 1] = ohms;
    const older = `# MHz ${kind} RI R 50\n1 ${a / r11} 0 ${c / r21} 0 ${b / r12} 0 ${d / r22} 0\n`;
    for (const file of [read(text), read(older)]) {
      const [[s11, s12] = [], [s21, s22] = []] = file.response.s[0] ?? [];
      expect(s11?.re).toBeCloseTo(0, 3);
      expect(s22?.re).toBeCloseTo(0, 3);
      expect(s21?.re).toBeCloseTo(transmission, 3);
      expect(s12?.re).toBeCloseTo(transmission, 3);
    }
  });
});
