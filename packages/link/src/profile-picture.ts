import { figureSvg } from '@sheetwave/emit-svg';
import { pathProfileChart } from '@sheetwave/plots';
import type { Link } from './plan-link.ts';

/** The path as an SVG file: ground on the curved earth, what stands on it, line of sight, first Fresnel zone and 60 % of it. */
export function profilePicture(link: Link): Uint8Array {
  const { path, near, far, name, freqHz } = link;
  const { ends, points, clearance, distanceM } = path;
  const label =
    clearance.share < 0 ? 'the line of sight is cut here' : `tightest: ${clearance.share.toFixed(2)} zone radii clear`;
  const ghz = `${Number((freqHz / 1e9).toFixed(3))} GHz`;
  const figure = pathProfileChart(
    {
      distanceM,
      ends: {
        near: { name: near.name, groundM: ends.nearGroundM, heightM: ends.nearM },
        far: { name: far.name, groundM: ends.farGroundM, heightM: ends.farM },
      },
      points,
      tightest: { atM: clearance.atM, label },
    },
    {
      title: `${name}: ${metres(distanceM)} at ${ghz}`,
      about: `Profile of the path from ${near.name} to ${far.name} on an earth of 4/3 radius. At ${metres(clearance.atM)}, ${label}: ${clearance.clearanceM.toFixed(1)} m from the line of sight to what is below.`,
      name: 'path-profile',
    },
  );
  return figureSvg(figure);
}

const metres = (value: number): string =>
  value >= 5000 ? `${Number((value / 1000).toFixed(2))} km` : `${Number(value.toFixed(0))} m`;
