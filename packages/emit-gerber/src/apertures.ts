/** The aperture list of one file: a number for each size and function, defined before anything is drawn. */
export class ApertureTable {
  readonly #codes = new Map<string, number>();
  readonly #definitions: string[] = [];

  /**
   * The number of a round aperture of `diameterMm` with the given function (`ComponentPad`, or '' for none).
   * The same size with another function is another aperture, so that a reader can tell them apart.
   */
  round(diameterMm: number, apertureFunction: string): number {
    if (!(diameterMm > 0)) throw new Error(`Gerber: an aperture of ${diameterMm} mm`);
    const template = `C,${diameterMm.toFixed(6)}`;
    const key = `${template} ${apertureFunction}`;
    const known = this.#codes.get(key);
    if (known !== undefined) return known;
    // Numbers below 10 are reserved (Gerber Layer Format Specification, "Aperture define").
    const code = 10 + this.#codes.size;
    this.#codes.set(key, code);
    this.#define(code, template, apertureFunction);
    return code;
  }

  #define(code: number, template: string, apertureFunction: string): void {
    const definition = `%ADD${code}${template}*%`;
    if (apertureFunction === '') this.#definitions.push(definition);
    else this.#definitions.push(`%TA.AperFunction,${apertureFunction}*%`, definition, '%TD*%');
  }

  /** The definitions, in order of first use. */
  get definitions(): readonly string[] {
    return this.#definitions;
  }
}
