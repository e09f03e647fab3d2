import {
  type AnyStock,
  type Connector,
  type Rod,
  type Screw,
  type Sheet,
  type Spacer,
  stock,
  type Tube,
} from '@sheetwave/design';
import type { Part } from '@sheetwave/geometry';

const MOST = 3;

/** Ids of stock that can take the place of a part without changing the antenna, from our own tables; the reason in words where there is a catch. */
export function alternativesOf(part: Part): readonly string[] {
  return others(part).slice(0, MOST);
}

function others(part: Part): readonly string[] {
  switch (part.form) {
    case 'plate':
      return sheets(part.sheet);
    case 'rod':
      return rods(part.rod);
    case 'tube':
      return tubes(part.tube);
    case 'bought':
      return bought(part.item);
    case 'board':
    case 'printed-spacer':
      return [];
  }
}

const idsBut = (id: string, items: readonly AnyStock[]): readonly string[] =>
  items.filter((one) => one.id !== id).map((one) => one.id);
const conducts = ({ conductivitySm }: Sheet['material']): boolean => conductivitySm > 0;

/** Any metal that takes solder, as thick. */
const sheets = (item: Sheet): readonly string[] =>
  idsBut(
    item.id,
    stock.sheet.filter(
      ({ thicknessMm, material }) =>
        thicknessMm === item.thicknessMm && conducts(material) && material.name !== 'aluminium',
    ),
  );

const rods = (item: Rod): readonly string[] =>
  idsBut(
    item.id,
    stock.rod.filter(({ diameterMm }) => diameterMm === item.diameterMm),
  );

const tubes = (item: Tube): readonly string[] =>
  idsBut(
    item.id,
    stock.tube.filter(({ outerMm, boreMm }) => outerMm === item.outerMm && boreMm >= item.boreMm),
  );

function bought(item: Extract<Part, { form: 'bought' }>['item']): readonly string[] {
  switch (item.kind) {
    case 'spacer':
      return idsBut(
        item.id,
        stock.spacer.filter((other) => isLike(item, other)),
      );
    case 'screw':
      return idsBut(
        item.id,
        stock.screw.filter((other) => isLikeScrew(item, other)),
      );
    case 'nut':
      return idsBut(
        item.id,
        stock.nut.filter(
          ({ thread, heightMm, material }) =>
            thread === item.thread && heightMm === item.heightMm && conducts(material) === conducts(item.material),
        ),
      );
    case 'washer':
      return idsBut(
        item.id,
        stock.washer.filter(
          ({ thread, thicknessMm, material }) =>
            thread === item.thread &&
            thicknessMm === item.thicknessMm &&
            conducts(material) === conducts(item.material),
        ),
      );
    case 'connector':
      return idsBut(
        item.id,
        stock.connector.filter((other) => isLikeConnector(item, other)),
      );
    case 'coax':
      return [];
  }
}

/** The same height, thread and ends; metal stays metal, because it drains static and takes no part in the field. */
const isLike = (item: Spacer, other: Spacer): boolean =>
  other.thread === item.thread &&
  other.bodyMm === item.bodyMm &&
  other.ends.join() === item.ends.join() &&
  conducts(other.material) === conducts(item.material);

/** As long; the head no higher, for it may stand in the field. */
const isLikeScrew = (item: Screw, other: Screw): boolean =>
  other.thread === item.thread &&
  other.lengthMm === item.lengthMm &&
  other.headHeightMm <= item.headHeightMm + 0.3 &&
  other.head !== 'countersunk' &&
  conducts(other.material) === conducts(item.material);

/** A plug on a cable can be another; what sits in the reflector has its own holes. */
const isLikeConnector = (item: Connector, other: Connector): boolean =>
  item.mount === 'cable' && other.mount === 'cable' && other.impedanceOhm === item.impedanceOhm;
