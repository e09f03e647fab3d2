import type { Assembly } from '@sheetwave/geometry';
import type { FeedModel } from '../prediction.ts';

/** What the scene leaves out of the antenna, in plain sentences. */
export function sceneDoubts(assembly: Assembly, feed: FeedModel): readonly string[] {
  const { design } = assembly;
  return [
    'Mast, cable, box and whatever stands near the antenna are left out; so are nuts, screw heads and brackets behind the reflector.',
    'Small round holes count as closed: those of screws and pins are filled, and mounting and drain holes are small against the wave.',
    ...reflectorDoubts(assembly),
    ...rodDoubts(assembly, feed),
    ...boardDoubts(assembly),
    'The coax ends in the plane of the reflector: the step from its dielectric to the pin is left out.',
    'Metal is taken as smooth and clean; roughness, solder and oxide cost some hundredths of a decibel more.',
    ...(design.layers.some((layer) => layer.spacer)
      ? ['Washers and threads are left out, and spacers are square rods of the same capacitance.']
      : []),
  ];
}

function reflectorDoubts({ design }: Assembly): string[] {
  const { fold, cornerRadiusMm } = design.reflector;
  const thin = 'The reflector counts as its front face, without thickness';
  const corners = cornerRadiusMm > 0 ? ' and with square corners.' : '.';
  return [`${thin}${corners}`, ...(fold ? ['Its folded edges meet the face in sharp bends.'] : [])];
}

function rodDoubts({ parts, design }: Assembly, feed: FeedModel): string[] {
  if (feed === 'each-element' && design.harness.kind !== 'none')
    return ['Every element is driven at its own foot, and the harness is left out.'];
  const bent = parts.filter((part) => part.form === 'rod' && part.bends.length > 0);
  if (bent.length === 0) return [];
  const radiusMm = Math.max(
    ...bent.map((part) => (part.form === 'rod' ? part.bendRadiusMm + part.rod.diameterMm / 2 : 0)),
  );
  // Twice the tangent less the quarter circle: 2R - pi R / 2.
  const shorterMm = (2 - Math.PI / 2) * radiusMm;
  return [`Bends of the rods are sharp corners; each real one is ${shorterMm.toFixed(1)} mm shorter along its axis.`];
}

function boardDoubts({ design }: Assembly): string[] {
  const onBoard =
    design.reflector.material.kind === 'board' || design.layers.some(({ build }) => build.kind === 'board');
  if (!onBoard) return [];
  return [
    'Copper of a board counts as a foil without thickness; solder mask and plated posts of a connector are left out.',
    'The permittivity of a laminate differs from lot to lot by 1 to 5 %, and the resonance by half of that.',
  ];
}
