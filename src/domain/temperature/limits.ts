/** How far all corrections together may move a sheet's time, as factors on it. */
export type FactorLimits = { readonly least: number; readonly most: number };

/** Half to double: our own bound, no source. Beyond it the sheet was not written for what is done. */
export const FACTOR_LIMITS: FactorLimits = { least: 0.5, most: 2 };

export const insideLimits = (factor: number, { least, most }: FactorLimits): boolean =>
  factor >= least - 1e-9 && factor <= most + 1e-9;
