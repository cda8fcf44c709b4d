import type { Millilitres } from "../units/quantity.ts";
import { plain, showVolume } from "../units/show.ts";

/**
 * A kit that makes `kit` put into another mark: how much too weak or too strong it gets. A US
 * quart made up to a litre is 5.4 % weak, to an Imperial quart 16.7 % weak (arithmetic from the
 * NIST tables).
 */
export function strengthOff(kit: Millilitres, mark: Millilitres): number {
  return kit / mark - 1;
}

/** The same in one sentence. */
export function dueVolume(kit: Millilitres, mark: Millilitres): string {
  const off = strengthOff(kit, mark) * 100;
  const word = off < 0 ? "weak" : "strong";
  return `One kit makes ${showVolume(kit)}; made up to ${showVolume(mark)} it would be ${plain(Math.abs(off), 1)} % too ${word}.`;
}
