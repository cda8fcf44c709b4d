import { loadCommands } from "../../src/commands/registry.ts";
import { createBell } from "../../src/conversation/bell.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import type { Bell } from "../../src/conversation/benches.ts";
import type { BenchRecord } from "../../src/conversation/record.ts";
import { type Instant, instant } from "../../src/domain/units/quantity.ts";
import { type Reply, valuesOf } from "../../src/reply/reply.ts";
import { createFakeClock, type FakeClock } from "./fake-clock.ts";
import { fillingStore } from "./filling-store.ts";

const commands = await loadCommands();

export type Told = {
  readonly reply: Reply;
  /** The instant the program believed it was. */
  readonly at: Instant;
  /** Milliseconds that had really gone by since the program started, sleep included. */
  readonly really: number;
  /** What the machine's clock on the wall showed. */
  readonly wall: Instant;
};

export type Living = {
  readonly clock: FakeClock;
  readonly bell: Bell;
  readonly keeper: BenchKeeper;
  readonly told: Told[];
  /** What went wrong while something was told. */
  readonly faults: unknown[];
  /** From here on the disk takes nothing, or everything again. */
  full(full: boolean): void;
  /** The record a program started now would find. */
  stored(): Promise<BenchRecord>;
  say(text: string): Promise<Reply>;
  /** What happens once a minute, whenever the test wants it to. */
  look(): Promise<void>;
};

/** A bench in step with a clock that a test sets, stops and puts to sleep. */
export async function live(start: string, zone = "Europe/Lisbon"): Promise<Living> {
  const clock = createFakeClock(instant(Date.parse(start)), { early: 1.5 });
  const { kept, store, fill } = fillingStore();
  const faults: unknown[] = [];
  const { keeper } = await BenchKeeper.open("t", { zone }, store, commands);
  const told: Told[] = [];
  let housekeep: () => void = () => undefined;
  const bell = createBell({
    keeper,
    clock,
    tell(replies, at) {
      for (const reply of replies)
        told.push({ reply, at, really: clock.elapsed(), wall: clock.wall() });
    },
    onFault: (error) => void faults.push(error),
    housekeep(look) {
      housekeep = look;
      return () => undefined;
    },
  });
  return {
    clock,
    bell,
    keeper,
    told,
    faults,
    full(now) {
      fill(now);
    },
    async stored() {
      const { value } = await kept.load("t");
      if (value === undefined) throw new Error("There is no such bench.");
      return value;
    },
    say: (text) => bell.hear(text, "Ines"),
    async look() {
      housekeep();
      await clock.pass(0);
      await keeper.idle();
      await clock.pass(0);
    },
  };
}

/** How many cues a message stands for: one, or all those it says were missed. */
export const cuesIn = ({ reply }: Told): number => {
  const { cue, missed } = valuesOf(reply);
  if (cue === "missed") return Number(missed);
  return cue === undefined ? 0 : 1;
};
