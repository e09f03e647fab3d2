import { type PredictionRequest, predictionKey, type SoundDesign } from '@sheetwave/pack';
import { sceneOf } from '@sheetwave/predict';
import { solverVersion } from './solver-version.ts';

/** The key of the prediction of a design: what the solver sees and is asked, and the solver. Equal keys, equal predictions. */
export function keyOf(
  { design, assembly }: Pick<SoundDesign, 'design' | 'assembly'>,
  request: PredictionRequest,
): string {
  const { scene, ports, doubts } = sceneOf(assembly, { feed: request.feed, quality: request.quality });
  const { band, targets, lattice, coax } = design;
  const setting = {
    band,
    targets,
    orientation: lattice.orientation,
    polarisation: design.layers.map(({ shape }) => (shape.kind === 'rectangle' ? shape.corners : undefined)),
    coaxOhm: coax.coax.impedanceOhm,
    ports,
    doubts,
  };
  return predictionKey({ scene, request, setting, solver: solverVersion() });
}
