import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bendRod } from './rod-bends.ts';

describe('bendRod', () => {
  it('gives a straight rod its own length and no bend', () => {
    const rod = bendRod(
      [
        { x: 0, y: 0, z: 0 },
        { x: 10, y: 0, z: 0 },
        { x: 25, y: 0, z: 0 },
      ],
      2,
      3,
    );
    expect(rod.bends).toEqual([]);
    expect(rod.developedLengthMm).toBe(25);
  });

  it('agrees with the worked sum of a U of two right angles', () => {
    // Legs 10, 40, 10 mm; axis radius 3 + 1 = 4 mm. Each bend takes 2 x 4 mm of corner and gives back 4 x pi / 2 of arc.
    const corners = [
      { x: 0, y: 0, z: 10 },
      { x: 0, y: 0, z: 0 },
      { x: 40, y: 0, z: 0 },
      { x: 40, y: 0, z: 10 },
    ];
    const rod = bendRod(corners, 2, 3);
    expect(rod.developedLengthMm).toBeCloseTo(60 - 2 * 8 + 2 * 4 * (Math.PI / 2), 9);
    expect(rod.bends.map((bend) => bend.angleDeg)).toEqual([90, 90]);
    expect(rod.bends[0]?.atMm).toBeCloseTo(6 + 2 * (Math.PI / 2), 9);
    expect(rod.bends[1]?.atMm).toBeCloseTo(rod.developedLengthMm - 6 - 2 * (Math.PI / 2), 9);
    expect(rod.bends[1]?.twistDeg).toBeCloseTo(0, 9);
  });

  it('turns the bending plane by 90 degrees for a leg that leaves the plane of the first bend', () => {
    const corners = [
      { x: 0, y: 0, z: 0 },
      { x: 20, y: 0, z: 0 },
      { x: 20, y: 20, z: 0 },
      { x: 20, y: 20, z: 20 },
    ];
    const rod = bendRod(corners, 2, 2);
    expect(Math.abs(rod.bends[1]?.twistDeg ?? 0)).toBeCloseTo(90, 9);
  });

  it('names a leg that is too short for its bends, with what it has and needs', () => {
    const corners = [
      { x: 0, y: 0, z: 2 },
      { x: 0, y: 0, z: 0 },
      { x: 40, y: 0, z: 0 },
    ];
    expect(bendRod(corners, 2, 3).shortLegs).toEqual([{ corner: 0, haveMm: 2, needMm: expect.closeTo(4, 9) }]);
  });

  it('refuses a rod that turns back on itself', () => {
    expect(() =>
      bendRod(
        [
          { x: 0, y: 0, z: 0 },
          { x: 10, y: 0, z: 0 },
          { x: 5, y: 0, z: 0 },
        ],
        2,
        3,
      ),
    ).toThrow(/turns back/);
  });

  it('is as long as its axis, drawn finely (property)', () => {
    const leg = fc.double({ min: 20, max: 60, noNaN: true });
    fc.assert(
      fc.property(leg, leg, fc.double({ min: 10, max: 120, noNaN: true }), (first, second, angleDeg) => {
        const angle = (angleDeg * Math.PI) / 180;
        const end = { x: first + second * Math.cos(angle), y: second * Math.sin(angle), z: 0 };
        const rod = bendRod([{ x: 0, y: 0, z: 0 }, { x: first, y: 0, z: 0 }, end], 2, 3);
        expect(rod.developedLengthMm).toBeCloseTo(polylineLength(first, second, angle, 4), 4);
      }),
    );
  });
});

/** Length of the same axis walked in ten thousand small steps: independent of the closed form. */
function polylineLength(first: number, second: number, angle: number, radius: number): number {
  const tangent = radius * Math.tan(angle / 2);
  const centre = { x: first - tangent, y: radius };
  let arc = 0;
  let before = { x: first - tangent, y: 0 };
  for (let step = 1; step <= 10_000; step++) {
    const turn = (angle * step) / 10_000;
    const point = { x: centre.x + radius * Math.sin(turn), y: centre.y - radius * Math.cos(turn) };
    arc += Math.hypot(point.x - before.x, point.y - before.y);
    before = point;
  }
  return first - tangent + arc + second - tangent;
}
