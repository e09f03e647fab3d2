import type { Assembly, BoardPart, EmittedFile } from '@sheetwave/geometry';
import { boardIdentity, type Identity } from './attributes.ts';
import { copperBody, copperComments, copperFileFunction, copperSides, type Side } from './copper.ts';
import { drillBytes, drillFileFunction, holesOf } from './drill.ts';
import { boardFrame, type Frame } from './frame.ts';
import { type GerberFile, gerberBytes } from './gerber-file.ts';
import { type JobEntry, jobBytes } from './job.ts';
import { legendBody } from './legend.ts';
import { maskBody, maskComments } from './mask.ts';
import { profileBody } from './profile.ts';

/**
 * What a board house needs for each board of the assembly: artwork and mask of the sides that have copper, legend,
 * profile, drill files for the holes there are, and a job file that lists them. Seen through from the top, never
 * mirrored, all with the lower left corner of the board at (0, 0). Only round holes are drilled; cut-outs are in the profile.
 *
 * Sizes are finished sizes, but for artwork whose process gives an undercut (`copperComments`).
 *
 * @throws Error when a contour cannot be drawn on the 1 nm grid, or `design.date` is not an ISO 8601 date.
 */
export function emitGerber(assembly: Assembly): EmittedFile[] {
  const boards = assembly.parts.filter((part) => part.form === 'board');
  return boards.flatMap((board) => boardFiles(board, assembly.design));
}

/** A file with what the job file says about it. */
interface Layer {
  readonly file: EmittedFile;
  readonly fileFunction: string;
  readonly polarity: 'Positive' | 'Negative';
}

interface Board {
  readonly board: BoardPart;
  readonly frame: Frame;
  readonly identity: Identity;
  readonly revision: string;
}

function boardFiles(board: BoardPart, design: Assembly['design']): readonly EmittedFile[] {
  const context = {
    board,
    frame: boardFrame(board),
    identity: boardIdentity(design, board),
    revision: design.revision,
  };
  const layers = [
    ...copperSides(board).flatMap((side) => [copperLayer(context, side), maskLayer(context, side)]),
    ...legendLayer(context),
    profileLayer(context),
    ...[true, false].flatMap((plated) => drillLayer(context, plated)),
  ];
  return [...layers.map(({ file }) => file), jobFile(context, layers)];
}

function copperLayer(context: Board, side: Side): Layer {
  const { board, frame } = context;
  return gerberLayer(
    context,
    { kind: 'copper-gerber', name: `${side}-copper` },
    {
      function: copperFileFunction(side),
      polarity: 'Positive',
      comments: [...sideComments(board, side), ...copperComments(board)],
      body: copperBody(board, side, frame),
    },
  );
}

function maskLayer(context: Board, side: Side): Layer {
  const { board, frame } = context;
  return gerberLayer(
    context,
    { kind: 'mask-gerber', name: `${side}-mask` },
    {
      function: side === 'top' ? 'Soldermask,Top' : 'Soldermask,Bot',
      polarity: 'Negative',
      comments: [...sideComments(board, side), ...maskComments(board, side)],
      body: maskBody(board, side, frame),
    },
  );
}

function legendLayer(context: Board): readonly Layer[] {
  const { board, frame, revision } = context;
  const body = legendBody(board, revision, frame);
  if (body.length === 0) return [];
  const comments = [...sideComments(board, 'top'), 'arrows point to the edge that the feed is nearest to'];
  const file = { function: 'Legend,Top', polarity: 'Positive', comments, body } as const;
  return [gerberLayer(context, { kind: 'legend-gerber', name: 'top-legend' }, file)];
}

function profileLayer(context: Board): Layer {
  const { board, frame } = context;
  return gerberLayer(
    context,
    { kind: 'profile-gerber', name: 'profile' },
    {
      function: 'Profile,NP',
      polarity: 'Positive',
      comments: [`edge of ${board.name}: the middle of the drawn line`],
      body: profileBody(board, frame),
    },
  );
}

function gerberLayer(
  { board, identity }: Board,
  { kind, name }: { readonly kind: EmittedFile['kind']; readonly name: string },
  file: GerberFile,
): Layer {
  return {
    file: { path: `copper/${board.id}-${name}.gbr`, kind, part: board.id, bytes: gerberBytes(file, identity) },
    fileFunction: file.function,
    polarity: file.polarity,
  };
}

function drillLayer(context: Board, plated: boolean): readonly Layer[] {
  const { board } = context;
  if (holesOf(board, plated).length === 0) return [];
  const path = `drill/${board.id}-${plated ? 'plated' : 'nonplated'}.drl`;
  const bytes = drillBytes(board, plated, context);
  const file: EmittedFile = { path, kind: 'drill-xnc', part: board.id, bytes };
  return [{ file, fileFunction: drillFileFunction(plated), polarity: 'Positive' }];
}

function jobFile(context: Board, layers: readonly Layer[]): EmittedFile {
  const { board } = context;
  const entries = layers.map(({ file, fileFunction, polarity }): JobEntry => {
    const path = file.path.startsWith('copper/') ? file.path.slice('copper/'.length) : `../${file.path}`;
    return { path, fileFunction, polarity };
  });
  const bytes = jobBytes(board, entries, context);
  return { path: `copper/${board.id}-job.gbrjob`, kind: 'gerber-job', part: board.id, bytes };
}

function sideComments(board: BoardPart, side: Side): readonly string[] {
  const where = side === 'top' ? 'outward side, away from the reflector' : 'side toward the back of the antenna';
  return [`${board.name}, ${side}: ${where}; seen through from the top, not mirrored`];
}
