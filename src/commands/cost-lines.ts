import type { Bottle } from "../domain/chemistry/bottle.ts";
import type { Units } from "../domain/units/quantity.ts";
import { showMoney, showUnits } from "../domain/units/show.ts";

export type Cost = {
  readonly line: string;
  readonly currency: string;
  /** For each unit of film done; missing while none was. */
  readonly soFar: number | undefined;
  /** For each unit when all its capacity is used. */
  readonly atCapacity: number | undefined;
};

/** What a roll costs from a bottle whose price was told; nothing without a price. */
export function costLine(bottle: Bottle, capacity?: Units): Cost | undefined {
  const { price } = bottle;
  if (price === undefined) return undefined;
  const soFar = bottle.used > 0 ? price.amount / bottle.used : undefined;
  const most = capacity === undefined ? 0 : Math.max(capacity, bottle.used);
  const atCapacity = most > 0 ? price.amount / most : undefined;
  const { currency } = price;
  const now =
    soFar === undefined
      ? "no film yet"
      : `${showMoney(soFar, currency)} a roll so far (${showUnits(bottle.used)})`;
  const full =
    atCapacity === undefined || capacity === undefined
      ? ""
      : `, ${showMoney(atCapacity, currency)} when all ${showUnits(capacity)} are done`;
  return {
    line: `${bottle.name}: ${showMoney(price.amount, currency)}; ${now}${full}.`,
    currency,
    soFar,
    atCapacity,
  };
}
