import { z } from "zod";
import { movements, showMovement } from "../process/agitation.ts";
import { millilitres } from "../units/quantity.ts";
import { storedNumber } from "../units/stored.ts";
import { filmFormats } from "./load.ts";

/** One reel: what it takes, how many of them at once, and the solution that covers it, mL. */
export const reelSchema = z.object({
  takes: z.array(z.enum(filmFormats)).min(1),
  rolls: storedNumber.int().min(1).max(8).default(1),
  ml: storedNumber.positive().transform(millilitres),
});
export type Reel = z.infer<typeof reelSchema>;

/** A tank with the reels it takes; volumes in mL by reel, never by tank. */
export const tankSchema = z.object({
  name: z.string(),
  /**
   * The ways it can be filled with reels, one at a time: two 35 mm reels, or one 120 reel in
   * their place. Empty: its reels were never told.
   */
  layouts: z.array(z.array(reelSchema).min(1).max(12)).max(6).default([]),
  /** How it is moved; missing: never told, and the sheet's own cadence holds. */
  agitation: z.enum(movements).optional(),
});
export type Tank = z.infer<typeof tankSchema>;

const kindOf = (takes: Reel["takes"]): string =>
  [...new Set(takes.map((format) => (format.startsWith("135") ? "35 mm" : format)))].join("/");

/** "two 35 mm reels of 300 mL" without the words for numbers: "2 35 mm reels, 300 mL each". */
export function showReels(reels: readonly Reel[]): string {
  const rows = new Map<string, number>();
  for (const { takes, rolls, ml } of reels) {
    const many = rolls === 1 ? "" : ` for ${rolls} rolls`;
    const key = `${kindOf(takes)} reel|${many}, ${Math.round(ml)} mL`;
    rows.set(key, (rows.get(key) ?? 0) + 1);
  }
  return [...rows]
    .map(([key, count]) => {
      const [noun = "", rest = ""] = key.split("|");
      return `${count} × ${noun}${count === 1 ? "" : "s"}${rest}${count === 1 ? "" : " each"}`;
    })
    .join(" and ");
}

export function showTank({ layouts, agitation }: Tank): string {
  const reels = layouts.length === 0 ? "reels not told" : layouts.map(showReels).join(", or ");
  return agitation === undefined ? reels : `${reels}; ${showMovement(agitation)}`;
}
