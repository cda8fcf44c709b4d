import type { Instant } from "../../../domain/units/quantity.ts";

const unix = (at: Instant): number => Math.floor(at / 1000);

/** Clock time to the second, in the zone of whoever reads it. */
export const clockMark = (at: Instant): string => `<t:${unix(at)}:T>`;

/** How far off it is; phones do not always count it down, so a clock time stands beside it. */
export const leftMark = (at: Instant): string => `<t:${unix(at)}:R>`;
