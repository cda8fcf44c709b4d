import {
  type Millilitres,
  millilitres,
  type SquareInches,
  squareInches,
} from "../units/quantity.ts";

/** The arithmetic of baths that are kept level. Volumes in mL, rates in mL per area or per unit. */

/**
 * Film area a volume can take at a replenishment rate: volume by rate
 * (E-6 manual, Section 2, Table 2-1, read).
 *
 * @param rate  mL for each square foot
 */
export const areaForVolume = (volume: Millilitres, rate: number): SquareInches =>
  squareInches((volume / rate) * 144);

/** Replenisher for some film, at a rate in mL per unit of 80 sq in. */
export const replenisherFor = (units: number, perUnit: number): Millilitres =>
  millilitres(units * perUnit);

/** A rate in mL per square foot as mL for one unit of 80 sq in: 200 mL/ft² is 111 mL. */
export const perUnit = (perSquareFoot: number): Millilitres =>
  millilitres((perSquareFoot * 80) / 144);

/**
 * What must go out before replenisher goes in, so that the bottle does not run over: the film
 * carried some out already (SS0520, topping off, para. (2), read).
 */
export const removeFirst = (replenish: Millilitres, carriedOut: Millilitres): Millilitres =>
  millilitres(Math.max(0, replenish - carriedOut));

/** 3 % of a tank for each two days it stood (SS0514, p. 2-15, para. c, read). */
export const STANDSTILL = { share: 0.03, days: 2 } as const;

/** Developer replenisher for a standstill: nothing before two whole days, then 3 % for each two. */
export const afterStandstill = (tank: Millilitres, days: number): Millilitres =>
  millilitres(tank * STANDSTILL.share * Math.max(0, Math.floor(days / STANDSTILL.days)));
