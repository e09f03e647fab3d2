import { type Complex, complex, multiply, polar, type Response } from '@sheetwave/rf';

/** The test cable between the plane of calibration and the antenna. */
export interface Cable {
  /** One way, s. Below 0 moves the plane towards the instrument. */
  readonly delayS: number;
  /** Loss one way at `lossAtHz`, dB; it grows with the square root of frequency, as skin effect makes it. */
  readonly lossDb: number;
  readonly lossAtHz: number;
}

/** A cable that loses nothing. */
export const losslessCable = (delayS: number): Cable => ({ delayS, lossDb: 0, lossAtHz: 1e9 });

/** One-way loss of a cable, dB, at a frequency. */
export const cableLossDb = ({ lossDb, lossAtHz }: Cable, freqHz: number): number =>
  lossDb * Math.sqrt(freqHz / lossAtHz);

/** What one pass back through the cable multiplies a wave by. */
const backThrough = (cable: Cable, freqHz: number): Complex =>
  polar(10 ** (cableLossDb(cable, freqHz) / 20), 2 * Math.PI * freqHz * cable.delayS);

/**
 * The response as it is behind a cable at each port, matched to the reference: S_ij turned back by both cables (port extension).
 * `cables[i]` is the one at port i; a port without one is left as it is.
 */
export function withoutCables(response: Response, cables: readonly (Cable | undefined)[]): Response {
  const s = response.s.map((matrix, k) => {
    const freqHz = response.freqHz[k] ?? Number.NaN;
    const factors = matrix.map((_, port) => {
      const cable = cables[port];
      return cable === undefined ? complex(1) : backThrough(cable, freqHz);
    });
    return matrix.map((row, to) =>
      row.map((value, from) => multiply(multiply(value, factors[to] ?? complex(1)), factors[from] ?? complex(1))),
    );
  });
  return { ...response, s };
}
