export type { Contour, Point, Segment } from './contour.ts';
export type * from './design.ts';
export { type Dimension, dimensionsOf, type SetBy, withDimensions } from './dimensions.ts';
export { namedFiles } from './drawing/named-files.ts';
export { editDesignText, editDesignTexts, type NewValue, type TextEdit } from './edit-design-text.ts';
export type { Finding } from './finding.ts';
export { placeFindings } from './locate.ts';
export { nearestWords } from './nearest.ts';
export { type NewDesign, newDesignText } from './new-design.ts';
export type { NewStack } from './new-stack.ts';
export { cutForHand, handOfPatch } from './polarisation.ts';
export type { PriceUnit } from './price.ts';
export { PRINT_PROCESSES, type PrintProcess, type PrintProcessRow } from './print-process.ts';
export {
  formatAngle,
  formatFrequency,
  formatGain,
  formatImpedance,
  formatLength,
  formatQuantity,
  type Problem,
  parseQuantity,
  type QuantityKind,
  type QuantityResult,
  type Range,
} from './quantity.ts';
export { defineDesign, type Reading, type ReadOptions, readDesign } from './read-design.ts';
export { renderFinding } from './render-finding.ts';
export { nextRevision, reviseDesignText } from './revise-design-text.ts';
export type { DesignFile } from './schema/design-file.ts';
export { designJsonSchema, type JsonSchema } from './schema/json-schema.ts';
export { coverMaterialNames, coverMaterials } from './site/cover-materials.ts';
export { namedProfile, readSite, type SiteReading } from './site/read-site.ts';
export type { ProfilePoint, Site, SiteCover, SiteEnd, SitePath, SiteRadio } from './site/site.ts';
export { findStock, type Stock, type StockKind, stock } from './stock/catalogue.ts';
export { drillsMm, nearestDrill } from './stock/drills.ts';
export { type MaterialName, materials } from './stock/materials.ts';
export { mountHardware } from './stock/mount-hardware.ts';
export { type PoleClampRow, poleClampFor, poleClamps } from './stock/pole-clamps.ts';
export type { InsideCorners, Process, Tabs } from './stock/process.ts';
export { processes } from './stock/processes.ts';
export { sheetToleranceMm } from './stock/sheet-tolerance.ts';
export { plainBoreMm } from './stock/spacers.ts';
export {
  clearanceHoleMm,
  type Fit,
  fits,
  type Thread,
  type ThreadRow,
  tapDrillMm,
  threadRow,
  threads,
  threadTable,
} from './stock/threads.ts';
export type { Tolerance } from './stock/tolerances.ts';
export type * from './stock/types.ts';
export { writeDesign } from './write-design.ts';
