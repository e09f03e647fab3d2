/**
 * One time step as data. Kernels are written, or emitted, from this description; none of them states the equations again.
 *
 * Scheme: K. S. Yee, IEEE Trans. AP-14 (1966) 302, with the absorbing layer of J. A. Roden and S. D. Gedney, Microwave
 * Opt. Technol. Lett. 27 (2000) 334. Every component has two terms t1, t2, one for each axis across it:
 *
 *     t   = inverse[axis] * difference            inverse = c dt / (spacing * kappa)
 *     psi = b[axis] * psi + c[axis] * t           inside the layer of that axis only
 *     t   = t + psi                               inside the layer of that axis only
 *     E   = ca * E + cb * (t1 - t2)               difference = here - one back     (dual spacing)
 *     H   = H - cm * (t1 - t2)                    difference = one ahead - here    (primary spacing)
 *
 * Every operation is rounded to 32 bits, in exactly this order. `cm` is 1 where a row names no coefficients.
 * E is in V/m: the voltage along an edge over its full length. H is stored times the impedance of free space, in V/m.
 */

export type Axis = 'x' | 'y' | 'z';
export type ElectricName = 'ex' | 'ey' | 'ez';
export type MagneticName = 'hx' | 'hy' | 'hz';
export type ComponentName = ElectricName | MagneticName;

export interface Term {
  /** The axis along which the difference is taken. */
  readonly axis: Axis;
  /** The component that is differenced. */
  readonly of: ComponentName;
}

export interface ComponentUpdate {
  readonly component: ComponentName;
  /** The term that counts positive in t1 - t2. */
  readonly plus: Term;
  /** The term that counts negative. */
  readonly minus: Term;
}

/** The electric half step: curl of H, backward differences. */
export const ELECTRIC_UPDATES: readonly ComponentUpdate[] = [
  { component: 'ex', plus: { axis: 'y', of: 'hz' }, minus: { axis: 'z', of: 'hy' } },
  { component: 'ey', plus: { axis: 'z', of: 'hx' }, minus: { axis: 'x', of: 'hz' } },
  { component: 'ez', plus: { axis: 'x', of: 'hy' }, minus: { axis: 'y', of: 'hx' } },
];

/** The magnetic half step: curl of E, forward differences. */
export const MAGNETIC_UPDATES: readonly ComponentUpdate[] = [
  { component: 'hx', plus: { axis: 'y', of: 'ez' }, minus: { axis: 'z', of: 'ey' } },
  { component: 'hy', plus: { axis: 'z', of: 'ex' }, minus: { axis: 'x', of: 'ez' } },
  { component: 'hz', plus: { axis: 'x', of: 'ey' }, minus: { axis: 'y', of: 'ex' } },
];

export const ELECTRIC_NAMES: readonly ElectricName[] = ['ex', 'ey', 'ez'];
export const MAGNETIC_NAMES: readonly MagneticName[] = ['hx', 'hy', 'hz'];
export const COMPONENT_NAMES: readonly ComponentName[] = [...ELECTRIC_NAMES, ...MAGNETIC_NAMES];
export const AXES: readonly Axis[] = ['x', 'y', 'z'];

/** The psi arrays in the order of the layout: for each component its plus term, then its minus term. */
export const psiName = (component: ComponentName, axis: Axis): PsiName => `${component}${axis}`;
export type PsiName = `${ComponentName}${Axis}`;
