import type { Feature, FeatureKind } from './side.ts';

/** A frequency on both sides, and how they differ. */
export interface FeaturePair {
  readonly kind: FeatureKind;
  readonly measuredHz: number;
  readonly predictedHz: number;
  /** VSWR or ohm, as the kind has it. */
  readonly measuredValue: number;
  readonly predictedValue: number;
  /** Measured less predicted. */
  readonly differenceHz: number;
  readonly differencePercent: number;
  /** Whether the difference is within the error that the prediction states; undefined when it states none. */
  readonly withinError: boolean | undefined;
}

/** Features further apart than this share of their frequency are not the same one. */
const FARTHEST = 0.12;

/** Pairs those features of one kind that are each other's nearest. `errorShare` is the relative error of predicted frequencies. */
export function pairFeatures(
  measured: readonly Feature[],
  predicted: readonly Feature[],
  errorShare: number | undefined,
): readonly FeaturePair[] {
  const nearest = (to: Feature, among: readonly Feature[]): Feature | undefined =>
    among
      .filter(({ kind }) => kind === to.kind)
      .reduce<Feature | undefined>(
        (best, one) => (best === undefined || apart(one, to) < apart(best, to) ? one : best),
        undefined,
      );
  return predicted.flatMap((wanted) => {
    const found = nearest(wanted, measured);
    if (found === undefined || nearest(found, predicted) !== wanted || apart(found, wanted) > FARTHEST) return [];
    const differenceHz = found.freqHz - wanted.freqHz;
    return [
      {
        kind: wanted.kind,
        measuredHz: found.freqHz,
        predictedHz: wanted.freqHz,
        measuredValue: found.value,
        predictedValue: wanted.value,
        differenceHz,
        differencePercent: (100 * differenceHz) / wanted.freqHz,
        withinError: errorShare === undefined ? undefined : Math.abs(differenceHz) <= errorShare * wanted.freqHz,
      },
    ];
  });
}

/** Distance of two frequencies, as a share. */
const apart = (a: Feature, b: Feature): number => Math.abs(Math.log(a.freqHz / b.freqHz));
