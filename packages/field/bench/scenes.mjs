// A driven plate over a reflector with a plate and a disc stacked above it, alone and as an array of 2 x 2.
const MM = 1e-3;

const rectangle = ([x, y], [width, height]) => ({
  kind: 'polygon',
  points: [
    [x - width / 2, y - height / 2],
    [x + width / 2, y - height / 2],
    [x + width / 2, y + height / 2],
    [x - width / 2, y + height / 2],
  ].map((point) => point.map((value) => value * MM)),
});

const sheet = (name, at, outline) => ({ name, normal: 'z', at: at * MM, thickness: 0, outline });

function stack(number, [x, y]) {
  const probe = [x * MM, (y - 7.05) * MM];
  return {
    sheets: [
      sheet(`plate ${number}`, 6, rectangle([x, y], [30, 22.1])),
      sheet(`upper plate ${number}`, 12, rectangle([x, y], [22, 16])),
      sheet(`disc ${number}`, 18, { kind: 'disc', centre: [x * MM, y * MM], radius: 8 * MM }),
    ],
    feed: { name: `feed ${number}`, from: [...probe, 0], to: [...probe, 6 * MM], resistance: 50 },
  };
}

/** The first stack is driven; the feeds of the others end in 50 ohm. */
function scene(centres, reflector) {
  const stacks = centres.map((centre, number) => stack(number, centre));
  return {
    sheets: [sheet('reflector', 0, rectangle([0, 0], reflector)), ...stacks.flatMap(({ sheets }) => sheets)],
    solids: [],
    wires: [],
    ports: [{ ...stacks[0].feed, radius: 0.3 * MM }],
    elements: stacks.slice(1).map(({ feed }) => feed),
  };
}

export const BAND = { low: 4.5e9, high: 6.2e9 };
export const oneStack = scene([[0, 0]], [75, 100]);
export const fourStacks = scene(
  [
    [-19, -19],
    [19, -19],
    [-19, 19],
    [19, 19],
  ],
  [150, 150],
);

/** One stack: about 150 thousand cells. Four: about 4.1 million. */
export const CHOICES = {
  small: { quality: 'draft', cellsPerWavelength: 20 },
  large: { quality: 'fine', cellsPerWavelength: 54 },
};
