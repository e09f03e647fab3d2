/** A plastic near 5 GHz. */
export interface Plastic {
  readonly permittivity: number;
  readonly lossTangent: number;
}

/**
 * Plastics of spacers and screws by the name that the stock gives them: dry nylon 66 (3.0 to 3.2, 0.012 to 0.03; moisture
 * raises both), solid PTFE (2.05 to 2.10, 0.0002 to 0.0004), polystyrene (2.5 to 2.6, 0.0002 to 0.0005): handbook values, memory.
 */
const BY_NAME: Readonly<Record<string, Plastic>> = {
  nylon: { permittivity: 3.1, lossTangent: 0.02 },
  PTFE: { permittivity: 2.1, lossTangent: 0.0003 },
  polystyrene: { permittivity: 2.55, lossTangent: 0.0004 },
};

/** PETG, ABS or ASA printed full: 2.55 to 2.95, 0.008 to 0.015 at 1 to 10 GHz (published range for these polymers, confirmed). */
export const PRINTED: Plastic = { permittivity: 2.7, lossTangent: 0.012 };

/** The plastic of this name; for one that is not listed, a value amid all. */
export const plasticOf = (name: string): Plastic => BY_NAME[name] ?? PRINTED;
