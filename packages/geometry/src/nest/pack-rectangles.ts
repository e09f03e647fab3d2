import library, { type Rectangle } from 'maxrects-packer';

// The only file that imports maxrects-packer, pinned to 2.7.3: later releases export nothing on Node. It puts what it finds too large into bins of
// their own, judges that before it would turn a rectangle, and drops without a word what rounding keeps out of an empty bin.

/** Rounding of sums of floats, mm: 1 nm. */
const SLACK_MM = 1e-6;

export interface Rect {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Whether it may be turned by 90°. */
  readonly turnable: boolean;
}

export interface PackedRect {
  /** Place in the list that was given. */
  readonly index: number;
  /** Lower left corner as it lies. */
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
}

export interface Room {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Least distance between rectangles. */
  readonly gapMm: number;
}

/** Whether a rectangle finds room alone, turned if it may be. */
export function fits(rect: Rect, room: Room): boolean {
  return within(rect.widthMm, rect.heightMm, room) || (rect.turnable && within(rect.heightMm, rect.widthMm, room));
}

/**
 * Packs rectangles into as many equal rooms as it takes, by the maximal-rectangles rule. The same input gives the same places.
 * Throws for a rectangle that fits into no room, and unless each comes back once, inside its room and clear of the others.
 */
export function packRectangles(rects: readonly Rect[], room: Room): readonly (readonly PackedRect[])[] {
  const packer = new library.MaxRectsPacker(room.widthMm + SLACK_MM, room.heightMm + SLACK_MM, room.gapMm, {
    smart: false,
    pot: false,
    square: false,
    allowRotation: false,
    tag: false,
    border: 0,
  });
  packer.addArray(rects.map((rect, index) => laidIn(rect, index, room)));
  const bins = packer.bins.map((bin) => bin.rects.map((rect) => packed(rect, rects)));
  check(bins, rects, room);
  return bins;
}

/** Turned beforehand where it only fits that way. */
function laidIn(rect: Rect, index: number, room: Room): Rectangle {
  if (!fits(rect, room))
    throw new Error(
      `packing: ${rect.widthMm} x ${rect.heightMm} mm does not fit into ${room.widthMm} x ${room.heightMm} mm`,
    );
  const turned = !within(rect.widthMm, rect.heightMm, room);
  const [width, height] = turned ? [rect.heightMm, rect.widthMm] : [rect.widthMm, rect.heightMm];
  const laid = new library.Rectangle(width, height, 0, 0, false, rect.turnable);
  laid.data = { index, turned };
  return laid;
}

/** The library swaps width and height of what it turns. */
function packed(rect: Rectangle, rects: readonly Rect[]): PackedRect {
  const { index, turned } = rect.data as { readonly index: number; readonly turned: boolean };
  if (rects[index] === undefined) throw new Error(`packing: a rectangle ${index} that nobody gave`);
  return { index, x: rect.x, y: rect.y, turned: turned !== rect.rot };
}

function within(widthMm: number, heightMm: number, room: Room): boolean {
  return widthMm <= room.widthMm + SLACK_MM / 2 && heightMm <= room.heightMm + SLACK_MM / 2;
}

interface Laid {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

function check(bins: readonly (readonly PackedRect[])[], rects: readonly Rect[], room: Room): void {
  const back = bins.flat().map(({ index }) => index);
  if (back.length !== rects.length || new Set(back).size !== rects.length)
    throw new Error(`packing: ${rects.length} rectangles in, ${back.length} out`);
  for (const bin of bins)
    checkBin(
      bin.map((one) => laid(one, rects)),
      room,
    );
}

function laid({ index, x, y, turned }: PackedRect, rects: readonly Rect[]): Laid {
  const { widthMm = 0, heightMm = 0 } = rects[index] ?? {};
  return { minX: x, minY: y, maxX: x + (turned ? heightMm : widthMm), maxY: y + (turned ? widthMm : heightMm) };
}

/** Sweeps by x, so that only neighbours are compared. */
function checkBin(boxes: readonly Laid[], { widthMm, heightMm, gapMm }: Room): void {
  const clear = gapMm - 2 * SLACK_MM;
  let open: Laid[] = [];
  for (const box of [...boxes].sort((a, b) => a.minX - b.minX)) {
    if (box.minX < 0 || box.minY < 0 || box.maxX > widthMm + 2 * SLACK_MM || box.maxY > heightMm + 2 * SLACK_MM)
      throw new Error('packing: a rectangle lies outside its room');
    open = open.filter((other) => other.maxX + clear > box.minX);
    if (open.some((other) => box.minY < other.maxY + clear && other.minY < box.maxY + clear))
      throw new Error('packing: two rectangles overlap');
    open.push(box);
  }
}
