/** `5.742 GHz`, or MHz below 1 GHz. */
export const frequencyText = (hertz: number): string =>
  hertz >= 1e9 ? `${(hertz / 1e9).toFixed(4)} GHz` : `${(hertz / 1e6).toFixed(2)} MHz`;

/** A VSWR for people. */
export const ratioText = (vswr: number): string => (Number.isFinite(vswr) ? vswr.toFixed(2) : 'infinite');
