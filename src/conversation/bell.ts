import type { Clock } from "../platform/clock.ts";
import { type Bell, type BenchesParts, type BenchParts, createBenches } from "./benches.ts";

export type BellParts = BenchParts & BenchesParts & { readonly clock: Clock };

const KEY = "bench";

/** Keeps one bench alone in step with real time. */
export function createBell({ clock, housekeep, ...parts }: BellParts): Bell {
  const benches = createBenches({ clock, housekeep });
  const bell = benches.join(KEY, parts);
  return {
    ...bell,
    stop() {
      bell.stop();
      benches.stop();
    },
  };
}
