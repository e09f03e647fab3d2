/** What every diagram takes beside its data. */
export interface PlotOptions {
  /** Bold line above the diagram. */
  readonly title: string;
  /** A sentence for who cannot see it; default the title. */
  readonly about?: string;
  /** Whole figure, mm. Default 160 by 100, round diagrams 120 by 130. */
  readonly widthMm?: number;
  readonly heightMm?: number;
  /** Begins the names of the groups in a file, so that several diagrams can stand in one document. Default `plot`. */
  readonly name?: string;
}

/** The options with their defaults. Throws RangeError for a figure that no diagram fits in. */
export function sizedOptions(
  options: PlotOptions,
  size: { readonly widthMm: number; readonly heightMm: number },
): Required<PlotOptions> {
  const full = { about: options.title, name: 'plot', ...size, ...options };
  for (const key of ['widthMm', 'heightMm'] as const)
    if (!(full[key] >= 40 && full[key] <= 2000)) throw new RangeError(`${key} must be 40 to 2000, not ${full[key]}.`);
  return full;
}
