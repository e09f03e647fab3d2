export type { CheckResult, DesignInput, Drawings, MakePackInput, MakePackResult } from './make-pack.ts';
export { checkDesign, makePack } from './make-pack.ts';
export { MANIFEST_PATH, type Manifest, type ManifestFile, type PackFile, readManifest } from './manifest.ts';
export { type WritePackOptions, type WriteResult, writePack } from './swap/write-pack.ts';
export type { WriteProblem } from './swap/write-problem.ts';
