import type { Bench } from "../domain/session/bench.ts";
import { type Millilitres, millilitres } from "../domain/units/quantity.ts";
import { showVolume } from "../domain/units/show.ts";

/** What a plastic tank with reels takes where it was never measured, mL of water (assumed, no source). */
const ASSUMED = [millilitres(30), millilitres(70)] as const;

export type Takes = {
  readonly tank: string | undefined;
  readonly least: Millilitres;
  readonly most: Millilitres;
  readonly known: boolean;
  readonly line: string;
};

/** The heat a tank takes: the named one's, the only one's that was measured, or what is assumed. */
export function takesOf(bench: Bench, named: string | undefined): Takes {
  const names = Object.keys(bench.tankHeat);
  const name = named?.toLowerCase() ?? (names.length === 1 ? names[0] : undefined);
  const own =
    name !== undefined && Object.hasOwn(bench.tankHeat, name) ? bench.tankHeat[name] : undefined;
  if (own === undefined) {
    const [least, most] = ASSUMED;
    const line = `What the tank takes is assumed, ${showVolume(least)} to ${showVolume(most)} of water: measure before and after a pour and I learn it.`;
    return { tank: named, least, most, known: false, line };
  }
  const { takes } = own;
  const line = `Tank ${name} takes as much heat as ${showVolume(takes)} of water, from its own pour.`;
  return { tank: name, least: takes, most: takes, known: true, line };
}
