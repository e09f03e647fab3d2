/** `12_21`: row by row, as for any other number of ports. `21_12`: column by column, the older order of two-port files. */
export type TwoPortOrder = '12_21' | '21_12';
export const TWO_PORT_ORDERS: readonly TwoPortOrder[] = ['12_21', '21_12'];
/** Which part of a symmetric matrix a file holds. */
export const MATRIX_FORMATS = ['Full', 'Lower', 'Upper'] as const;
export type MatrixFormat = (typeof MATRIX_FORMATS)[number];

export interface Layout {
  readonly ports: number;
  readonly twoPortOrder: TwoPortOrder;
  readonly matrixFormat: MatrixFormat;
}

/** [to, from] of each pair of numbers after the frequency, in file order, from 0. */
export function pairPlaces({ ports, twoPortOrder, matrixFormat }: Layout): readonly (readonly [number, number])[] {
  if (ports === 2 && matrixFormat === 'Full' && twoPortOrder === '21_12') {
    return [
      [0, 0],
      [1, 0],
      [0, 1],
      [1, 1],
    ];
  }
  const places: (readonly [number, number])[] = [];
  for (let row = 0; row < ports; row++) {
    const first = matrixFormat === 'Upper' ? row : 0;
    const last = matrixFormat === 'Lower' ? row : ports - 1;
    for (let column = first; column <= last; column++) places.push([row, column]);
  }
  return places;
}
