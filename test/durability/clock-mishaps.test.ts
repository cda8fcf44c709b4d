import { expect, test } from "vitest";
import { valuesOf } from "../../src/reply/reply.ts";
import { cuesIn, type Living, live, type Told } from "../support/mishaps.ts";
import { seeded } from "../support/seeded.ts";

const START = "2026-11-28T19:30:00Z";
/** The last cue of the run comes 16 minutes after its first pour. */
const LONG_ENOUGH = 20 * 60_000;

async function begin(): Promise<Living> {
  const living = await live(START);
  await living.say("use sheet saltmarsh demo");
  await living.say("start saltmarsh demo two rolls of 120 tank north");
  await living.say("ready");
  await living.clock.pass(20_000);
  await living.say("in");
  living.told.length = 0;
  return living;
}

type Expected = { readonly cue: string; readonly due: number };

const nameOf = ({ reply }: Told): string => {
  const { tank, bath, cue } = valuesOf(reply);
  return [tank, bath, cue].join(" ");
};

/** When each cue is due, by a bench to which nothing happens, in ms from the start. */
async function quietEvening(): Promise<readonly Expected[]> {
  const living = await begin();
  await living.clock.pass(LONG_ENOUGH);
  return living.told.map((told) => ({ cue: nameOf(told), due: told.really }));
}

type Mishap = { readonly kind: "set" | "suspend" | "stall"; readonly ms: number };

function mishap(chance: () => number): Mishap {
  const kind = (["set", "set", "suspend", "stall"] as const)[Math.floor(chance() * 4)] ?? "set";
  // Clock steps of a second to an hour either way; naps of up to five minutes; stalls of up to 5 s.
  if (kind === "set") {
    const size = 1000 * 3600 ** chance();
    return { kind, ms: Math.round(chance() < 0.5 ? -size : size) };
  }
  return { kind, ms: Math.round((kind === "suspend" ? 300_000 : 5000) * chance()) };
}

/** A timer is heard of to the millisecond, and `elapsed` is exact. */
const NOISE = 5;
/** A sleep is noticed within half a second of waking, and counted 20 ms short. */
const WAKING = 600;

test("clock steps, sleep and stalls: no cue early, none lost, none told twice", async () => {
  const expected = await quietEvening();
  expect(expected.length).toBeGreaterThan(30);
  for (let seed = 1; seed <= 40; seed += 1) {
    const chance = seeded(seed);
    const { clock, told, faults } = await begin();
    const from = clock.elapsed();
    /** Stretches in which nothing could be told, with the time it then takes to catch up. */
    const away: { from: number; to: number }[] = [];
    let naps = 0;
    while (clock.elapsed() - from < LONG_ENOUGH + 1000) {
      await clock.pass(Math.round(chance() * 90_000));
      const { kind, ms } = mishap(chance);
      const before = clock.elapsed();
      clock[kind](ms);
      await clock.pass(0);
      if (kind !== "set") away.push({ from: before, to: clock.elapsed() + WAKING });
      if (kind === "suspend") naps += 1;
    }
    const where = `seed ${seed}`;
    expect(
      told.reduce((sum, one) => sum + cuesIn(one), 0),
      where,
    ).toBe(expected.length);

    const waiting = [...expected];
    for (const one of told) {
      if (valuesOf(one.reply).cue === "missed") {
        const gone = waiting.splice(0, cuesIn(one));
        for (const { due } of gone) expect(one.really, where).toBeGreaterThanOrEqual(due - NOISE);
        expect(
          away.some(({ from, to }) => from <= one.really && one.really <= to),
          where,
        ).toBe(true);
        continue;
      }
      const next = waiting.shift();
      expect(nameOf(one), where).toBe(next?.cue);
      const due = next?.due ?? Number.NaN;
      expect(one.really, `${where}: ${next?.cue}`).toBeGreaterThanOrEqual(due - NOISE);
      const excused = away.find(({ from, to }) => from <= due && due <= to);
      // Each nap is counted up to 20 ms short, so that nothing is ever early.
      const latest = (excused?.to ?? due + NOISE) + naps * 40;
      expect(one.really, `${where}: ${next?.cue}`).toBeLessThanOrEqual(latest);
    }
    expect(waiting, where).toEqual([]);
    expect(faults, where).toEqual([]);
  }
}, 60_000);

test("a disk that fills up in the middle of a run: every cue in time and once, and kept when it can be", async () => {
  const expected = await quietEvening();
  const { clock, told, faults, full, keeper, say, stored } = await begin();
  await clock.pass(60_000);
  full(true);
  await clock.pass(300_000);
  expect(faults.length).toBeGreaterThan(3);
  // What somebody says is refused, since it could not be kept.
  await expect(say("note the lid leaks")).rejects.toThrow("disk is full");
  full(false);
  await clock.pass(LONG_ENOUGH);
  expect(told.map((one) => nameOf(one))).toEqual(expected.map(({ cue }) => cue));
  for (const [index, { really }] of told.entries()) {
    const due = expected[index]?.due ?? Number.NaN;
    expect(Math.abs(really - due)).toBeLessThanOrEqual(NOISE);
  }
  expect(await stored()).toEqual(keeper.record);
}, 60_000);
