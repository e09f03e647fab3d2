/** What a file of the build pack is for; programs choose files by it. */
export type FileKind =
  | 'cut-dxf'
  | 'sheet-dxf'
  | 'copper-gerber'
  | 'mask-gerber'
  | 'legend-gerber'
  | 'profile-gerber'
  | 'drill-xnc'
  | 'gerber-job'
  | 'drill-map-svg'
  | 'template-svg'
  | 'drill-map-pdf'
  | 'template-pdf'
  | 'etch-mask'
  | 'picture-svg'
  | 'jig-stl'
  | 'jig-3mf'
  | 'build-plan'
  | 'report'
  | 'touchstone'
  | 'plot-svg'
  | 'prediction-json'
  | 'sensitivities-json'
  | 'parts-csv'
  | 'summary';

/** One file an emitter made. No file system: the pack decides where the folder is. */
export interface EmittedFile {
  /** Relative to the pack, with `/`: `cut/patch-driven.dxf`. */
  readonly path: string;
  readonly kind: FileKind;
  /** Id of the part it shows, or undefined when it shows several. */
  readonly part: string | undefined;
  readonly bytes: Uint8Array;
}
