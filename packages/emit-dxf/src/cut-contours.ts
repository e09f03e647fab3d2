import {
  type Contour,
  type CornerReport,
  type LeadIn,
  type LeadIns,
  leadIns,
  type OpenPath,
  type Placement,
  type PlatePart,
  type Point,
  placeContour,
  placePoint,
  type Segment,
  sawLine,
  toolPath,
} from '@sheetwave/geometry';
import type { DxfEntity } from './drawing.ts';
import { contourEntity, openEntity } from './loop.ts';
import { splitHoles } from './machined-holes.ts';
import { millimetres } from './notes.ts';

/** Everything that is done to one plate along a line, in its own plane. */
export interface CutContours {
  readonly drilled: readonly Contour[];
  readonly inner: readonly Contour[];
  readonly outer: Contour;
  /** The line to saw on before filing to `outer`. */
  readonly rough: Contour | undefined;
  readonly leads: LeadIns;
  readonly corners: CornerReport;
}

/** Drilled holes are finished sizes always; what the machine cuts follows its tool path when the process asks for that. */
export function cutContours(part: PlatePart): CutContours {
  const { cut, drilled } = splitHoles(part);
  const { outline, process } = part;
  const path = toolPath({ ...outline, holes: cut }, process);
  return {
    drilled: drilled.map(({ centre, diameterMm }) => ({ kind: 'circle', centre, radiusMm: diameterMm / 2 })),
    inner: [...path.holes, ...path.cutouts],
    outer: path.outer,
    rough: sawLine(path.outer, process.allowanceMm),
    leads: process.leadInMm > 0 ? leadIns(path, process.leadInMm) : { leads: [], outside: undefined, without: 0 },
    corners: path.corners,
  };
}

type Place = Pick<Placement, 'at' | 'turnDeg'>;

const AS_DRAWN: Place = { at: { x: 0, y: 0, z: 0 }, turnDeg: 0 };

/** The same without the run-in of the outside. */
export function withoutOutsideLead(cut: CutContours): CutContours {
  const { leads, outside } = cut.leads;
  return { ...cut, leads: { ...cut.leads, leads: leads.filter((lead) => lead !== outside), outside: undefined } };
}

/** The lines of a plate on their layers, at a place. */
export function cutEntities(cut: CutContours, place: Place = AS_DRAWN): readonly DxfEntity[] {
  const put = (contour: Contour): Contour => placeContour(contour, place);
  return [
    ...cut.drilled.map((hole) => contourEntity(put(hole), 'DRILL')),
    ...cut.leads.leads.map((lead) => openEntity(placePath(leadPath(lead), place), 'LEAD_IN')),
    ...cut.inner.map((contour) => contourEntity(put(contour), 'CUT_INNER')),
    ...(cut.rough === undefined ? [] : [contourEntity(put(cut.rough), 'ROUGH_CUT')]),
    contourEntity(put(cut.outer), 'CUT_OUTER'),
  ];
}

const leadPath = ({ from, to, centre, sense }: LeadIn): OpenPath => ({
  start: from,
  segments: [{ kind: 'arc', to, centre, sense }],
});

function placePath({ start, segments }: OpenPath, place: Place): OpenPath {
  const put = (point: Point): Point => placePoint(point, place);
  return {
    start: put(start),
    segments: segments.map(
      (segment): Segment =>
        segment.kind === 'line'
          ? { kind: 'line', to: put(segment.to) }
          : { ...segment, to: put(segment.to), centre: put(segment.centre) },
    ),
  };
}

/** What a person has to know of the corners and run-ins. */
export function cutNotes({ corners, leads }: CutContours, { leadInMm }: PlatePart['process']): readonly string[] {
  return [...cornerNote(corners), ...leadNote(leads, leadInMm)];
}

function cornerNote({ rule, radiusMm, changed, left }: CornerReport): readonly string[] {
  if (rule === 'as-drawn' || changed + left === 0) return [];
  const made = rule === 'round' ? 'rounded to' : 'with a dog-bone relief of radius';
  const rest = left === 0 ? '' : `; ${left} without room for it left sharp`;
  return [`inside corners: ${changed} ${made} ${millimetres(radiusMm)}${rest}`];
}

function leadNote({ leads, without }: LeadIns, lengthMm: number): readonly string[] {
  if (leads.length + without === 0) return [];
  const rest = without === 0 ? '' : `; ${without} of ${leads.length + without} contours have no room for one`;
  return [`LEAD_IN: run-ins of at most ${millimetres(lengthMm)}${rest}`];
}
