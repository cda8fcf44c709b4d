import type { Command } from "../../src/commands/define-command.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import type { BenchRecord } from "../../src/conversation/record.ts";
import { type Instant, later } from "../../src/domain/units/quantity.ts";
import { createMemoryStore, emptyMemory } from "../../src/store/memory-store.ts";
import { eveningScript } from "./evening-script.ts";
import { evening } from "./runs.ts";

/** What the long evening leaves out: a whole sheet of invented figures in use, with all that goes by it. */
const orchard = `
cancel
stop teaching
learn a sheet
orchard
C-41
metric
developer, blix
1000
650
43
A 100 ml, B 100 ml
3:15
38 plus or minus 0.3
first 30 seconds then 5 seconds every 30
8
6 weeks full and 3 weeks part full
5 percent per roll
30 seconds per stop
35 4:00, 38 3:15, 40 2:50
yes
skip
6:30
38 plus or minus 2
skip
10
6 weeks
yes
bottle developer 1 litre mixed yesterday called Heron
bottle blix 1 litre mixed yesterday called Osprey
Heron is half full
Heron cost 14 euros
remind me every sunday to shake Heron
remind me every second month on the first monday at 18:00 to weigh
remind me tomorrow at 18:00 to look
add two rolls of 120 C-41 pushed one stop called cliff
start developer push one at 37.5 tank birch
yes
ready
@ 30
in
temperature 37.9
the red thermometer says 37.8
@ 60
start blix two 120 from Osprey tank fir
yes
fir ready
@ 25
fir in
note it foams
mix 1 litre of developer
water in
`
  .trim()
  .split("\n");

/** Enough runs that the oldest stand in files of their own. */
const quick = Array.from({ length: 8 }, (_, n) => [
  `start wash for 1 minute tank quick ${n}`,
  "ready",
  "in",
  "@ 130",
]).flat();

/** A record as it stood at a moment of the long evening. */
export type Moment = { readonly at: Instant; readonly record: BenchRecord };

/**
 * The record of the long evening after every `every`th line of it, and more often towards its end,
 * where it holds the most.
 */
export async function eveningRecords(
  commands: readonly Command[],
  every: number,
): Promise<readonly Moment[]> {
  const store = createMemoryStore(emptyMemory<BenchRecord>());
  const { keeper } = await BenchKeeper.open("evening", { zone: "Europe/Lisbon" }, store, commands);
  const moments: Moment[] = [];
  let now = evening;
  for (const [index, line] of [...eveningScript, ...quick, ...orchard].entries()) {
    if (line.startsWith("@")) {
      now = later(now, Number(line.slice(1)));
      for (let due = keeper.nextDue(); due !== undefined && due <= now; due = keeper.nextDue()) {
        await keeper.tick(due, () => undefined);
      }
    } else await keeper.hear({ text: line, who: "Ines", standing: "owner" }, now);
    const often = index < eveningScript.length + quick.length ? every : Math.ceil(every / 4);
    if (index % often === often - 1) moments.push({ at: now, record: keeper.record });
  }
  return moments;
}
