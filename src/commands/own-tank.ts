import type { Tank } from "../domain/film/tank.ts";
import { ownValue } from "../domain/own-value.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Json } from "../reply/reply.ts";

/** The tank of a bench by its spoken name. */
export const ownTank = (bench: Bench, name: string): Tank | undefined =>
  ownValue(bench.tanks, name.toLowerCase());

export const tankJson = (tank: Tank): Json => ({
  tank: tank.name,
  agitation: tank.agitation ?? null,
  layouts: tank.layouts.map((reels) =>
    reels.map(({ takes, rolls, ml }) => ({ takes: [...takes], rolls, ml })),
  ),
});

export const tankJsonKeys =
  "tank, agitation (inversion, stick, rotary, rack or null), layouts (the ways it is filled, each a list of reels: takes, rolls, ml)";
