/** `5.742 GHz`, or MHz below 1 GHz. */
export const ghz = (hertz: number): string =>
  hertz >= 1e9 ? `${(hertz / 1e9).toFixed(3)} GHz` : `${(hertz / 1e6).toFixed(1)} MHz`;
/** `59 MHz`, with decimals where it is small. */
export const mhz = (hertz: number): string => `${(hertz / 1e6).toFixed(Math.abs(hertz) < 10e6 ? 1 : 0)} MHz`;
/** A VSWR for people. */
export const ratioText = (vswr: number): string =>
  Number.isFinite(vswr) ? vswr.toFixed(vswr < 10 ? 2 : 0) : 'infinite';
