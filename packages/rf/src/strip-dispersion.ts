/**
 * How the strip over a dielectric changes with frequency. Effective permittivity: M. Kirschning & R. H. Jansen, Electronics
 * Letters 18 (1982) 272-273, claimed 0.6 % to 60 GHz. Impedance: R. H. Jansen & M. Kirschning, AEU 37 (1983) 108-112
 * (R1 to R10 confirmed, R11 to R17 from memory). Widths 0.1 to 100 heights, permittivities 1 to 20, heights up to 0.13
 * wavelengths.
 *
 * Unit trap: these constants take frequency times height in GHz mm. The letter prints them for GHz cm, with other constants;
 * mixed sets are in circulation.
 */

/** The quasi-static strip to start from, and how high it stands in GHz mm. */
export interface DispersionInput {
  /** Width over height. */
  readonly u: number;
  readonly permittivity: number;
  readonly staticPermittivity: number;
  /** Frequency in GHz times height in mm. */
  readonly gigahertzMillimetres: number;
}

/** Effective relative permittivity at the frequency. */
export function dispersedPermittivity(input: DispersionInput): number {
  const { u, permittivity: er, staticPermittivity: ee, gigahertzMillimetres: fn } = input;
  const p1 = 0.27488 + (0.6315 + 0.525 / (1 + 0.0157 * fn) ** 20) * u - 0.065683 * Math.exp(-8.7513 * u);
  const p2 = 0.33622 * (1 - Math.exp(-0.03442 * er));
  const p3 = 0.0363 * Math.exp(-4.6 * u) * (1 - Math.exp(-((fn / 38.7) ** 4.97)));
  const p4 = 1 + 2.751 * (1 - Math.exp(-((er / 15.916) ** 8)));
  const p = p1 * p2 * ((0.1844 + p3 * p4) * fn) ** 1.5763;
  return er - (er - ee) / (1 + p);
}

/** Factor on the low-frequency impedance at the frequency. */
export function impedanceDispersion(input: DispersionInput): number {
  const { u, permittivity: er, staticPermittivity: ee, gigahertzMillimetres: fn } = input;
  const r1 = 0.03891 * er ** 1.4;
  const r2 = 0.267 * u ** 7;
  const r3 = 4.766 * Math.exp(-3.228 * u ** 0.641);
  const r4 = 0.016 + (0.0514 * er) ** 4.524;
  const r5 = (fn / 28.843) ** 12;
  const r6 = 22.2 * u ** 1.92;
  const r7 = 1.206 - 0.3144 * Math.exp(-r1) * (1 - Math.exp(-r2));
  const r8 = 1 + 1.275 * (1 - Math.exp(-0.004625 * r3 * er ** 1.674 * (fn / 18.365) ** 2.745));
  const sixthPower = (er - 1) ** 6;
  const r9 =
    ((((5.086 * r4 * r5) / (0.3838 + 0.386 * r4)) * Math.exp(-r6)) / (1 + 1.2992 * r5)) *
    (sixthPower / (1 + 10 * sixthPower));
  const r10 = 0.00044 * er ** 2.136 + 0.0184;
  const sixth = (fn / 19.47) ** 6;
  const r11 = sixth / (1 + 0.0962 * sixth);
  const r12 = 1 / (1 + 0.00245 * u * u);
  const r13 = 0.9408 * dispersedPermittivity(input) ** r8 - 0.9603;
  const r14 = (0.9408 - r9) * ee ** r8 - 0.9603;
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: 0.707 is a fitted constant of the letter, not a root.
  const r15 = 0.707 * r10 * (fn / 12.3) ** 1.097;
  const r16 = 1 + 0.0503 * er * er * r11 * (1 - Math.exp(-((u / 15) ** 6)));
  const r17 = r7 * (1 - 1.1241 * (r12 / r16) * Math.exp(-0.026 * fn ** 1.15656 - r15));
  return (r13 / r14) ** r17;
}
