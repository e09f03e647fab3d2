export { antennaExploded } from './antenna-exploded.ts';
export { antennaTop } from './antenna-top.ts';
export type { Picture } from './picture.ts';
export { scaleContour } from './scale.ts';
export { stackSection } from './stack-section.ts';
