import { expect, test } from "vitest";
import { type Instant, instant } from "../../src/domain/units/quantity.ts";
import { valuesOf } from "../../src/reply/reply.ts";
import { type Living, live } from "../support/mishaps.ts";
import { seeded } from "../support/seeded.ts";

const HOUR = 3_600_000;

const dayIn = (zone: string, at: Instant): string =>
  Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(zone).toPlainDate().toString();

/**
 * Lets `ms` go by in leaps that end just before something is due or a minute's look would help, so
 * that months take seconds. Nothing is skipped: between them there is nothing to do.
 */
async function leap(living: Living, ms: number): Promise<void> {
  const { clock, keeper, bell } = living;
  const end = clock.elapsed() + ms;
  while (clock.elapsed() < end) {
    const due = keeper.nextDue();
    const until = due === undefined ? Number.POSITIVE_INFINITY : due - bell.now() - 50;
    const step = Math.min(end - clock.elapsed(), 6 * HOUR, Math.max(100, until));
    if (step > 1000) clock.stall(step);
    else await clock.pass(step);
    await living.look();
  }
}

/** From noon in the zone on. */
const seasons = [
  { name: "the clocks go back", from: "2026-10-10", days: 40, zone: "Europe/Lisbon" },
  { name: "the clocks go forward", from: "2027-03-10", days: 40, zone: "America/New_York" },
  { name: "a leap day", from: "2028-02-10", days: 40, zone: "Pacific/Chatham" },
  {
    name: "half an hour of summer time",
    from: "2027-03-20",
    days: 30,
    zone: "Australia/Lord_Howe",
  },
];

test.each(seasons)(
  "$name: one reminder on each local day, whatever the clock does",
  async ({ from, days: count, zone }) => {
    const noon = Temporal.ZonedDateTime.from(`${from}T12:00[${zone}]`).toInstant().toString();
    for (let seed = 1; seed <= 4; seed += 1) {
      const chance = seeded(seed);
      const living = await live(noon, zone);
      const { clock, told } = living;
      await living.say("remind me every day at 9 am to check the tap");
      /** How far the clock on the wall has been set from the truth. */
      let wrong = 0;
      const days: string[] = [];
      for (let day = 0; day < count; day += 1) {
        days.push(dayIn(zone, instant(Math.floor(clock.wall() - wrong))));
        for (let hour = 0; hour < 4; hour += 1) {
          await leap(living, 6 * HOUR * 0.999);
          if (chance() < 0.6) {
            // Set wrong by up to an hour, and set right again the next time.
            const by = wrong === 0 ? Math.round((chance() * 2 - 1) * HOUR) : -wrong;
            clock.set(by);
            wrong += by;
          }
          if (chance() < 0.3) clock.suspend(Math.round(chance() * 60_000));
          await living.look();
        }
      }
      const reminders = told.filter(({ reply }) => reply.title.includes("check the tap"));
      const heard = reminders.map(({ wall }) => dayIn(zone, instant(Math.floor(wall))));
      // On the first day nine o'clock had gone by.
      const expected = days.slice(1);
      expect(heard.slice(0, expected.length), `seed ${seed}`).toEqual(expected);
      for (const { at } of reminders) {
        const local = Temporal.Instant.fromEpochMilliseconds(Math.floor(at)).toZonedDateTimeISO(
          zone,
        );
        expect(local.hour, `seed ${seed}`).toBeGreaterThanOrEqual(9);
      }
    }
  },
  60_000,
);

test("a bench that moves from zone to zone hears it once for each date on its calendar", async () => {
  const zones = ["Asia/Tokyo", "Europe/Lisbon", "America/Sao_Paulo", "Pacific/Apia"];
  for (let seed = 1; seed <= 6; seed += 1) {
    const chance = seeded(seed);
    const living = await live("2026-12-01T12:00:00Z", "Europe/Lisbon");
    await living.say("remind me every day at 9 am to check the tap");
    const dates: string[] = [];
    let counted = 0;
    for (let stay = 0; stay < 8; stay += 1) {
      await leap(living, Math.round((1 + chance() * 6) * 24 * HOUR));
      const { zone } = living.keeper.record.bench;
      for (const { reply, at } of living.told.slice(counted)) {
        const { late_s = 0 } = valuesOf(reply);
        if (!reply.title.includes("check the tap")) continue;
        dates.push(dayIn(zone, instant(Math.floor(at - Number(late_s) * 1000))));
      }
      counted = living.told.length;
      await living.say(`set zone ${zones[Math.floor(chance() * zones.length)] ?? zone}`);
    }
    const first = Temporal.PlainDate.from("2026-12-02");
    const expected = dates.map((_, day) => first.add({ days: day }).toString());
    expect(dates.length, `seed ${seed}`).toBeGreaterThan(10);
    expect(dates, `seed ${seed}`).toEqual(expected);
  }
}, 60_000);
