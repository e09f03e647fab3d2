export { antennaOf, type LinkAntenna } from './antenna.ts';
export type { AntennaGain } from './antenna-gain.ts';
export { linkJson } from './link-json.ts';
export { linkWords } from './link-words.ts';
export { type Link, type LinkEnd, type LinkPlan, type LinkQuestion, planLink } from './plan-link.ts';
export { profilePicture } from './profile-picture.ts';
