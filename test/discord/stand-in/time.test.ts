import { expect, test } from "vitest";
import { instant } from "../../../src/domain/units/quantity.ts";
import { createFakeClock } from "../../support/fake-clock.ts";
import { setUp } from "./support/set-up.ts";
import { createIds, createServiceTime, madeAt, shardOf } from "./time-and-ids.ts";

// API reference, "Snowflakes": the worked example of the page.
test("an id tells when its bearer was made", () => {
  expect(madeAt("175928847299117063")).toBe(Date.UTC(2016, 3, 30, 11, 18, 25, 796));
});

test("ids rise, are 17 to 20 digits, and never come twice", () => {
  const clock = createFakeClock();
  const ids = createIds(createServiceTime(clock));
  const fresh: bigint[] = [];
  for (let made = 0; made < 300; made += 1) {
    if (made % 100 === 50) clock.set(-5000);
    if (made % 7 === 0) clock.advance(10);
    fresh.push(BigInt(ids.next()));
  }
  expect(fresh).toEqual([...fresh].sort((one, other) => (one < other ? -1 : 1)));
  const past = Array.from({ length: 500 }, () => ids.past(86_400_000));
  expect(new Set([...past, ...fresh.map(String)]).size).toBe(800);
  expect(past.every((id) => /^\d{17,20}$/.test(id))).toBe(true);
});

test("guilds made one after the other spread over the shards", () => {
  const ids = createIds(createServiceTime(createFakeClock()));
  const shards = Array.from({ length: 8 }, () => shardOf(ids.past(86_400_000), 4));
  expect([0, 1, 2, 3].map((shard) => shards.filter((one) => one === shard).length)).toEqual([
    2, 2, 2, 2,
  ]);
});

test("the service's time goes on through our machine's sleep, and is not set with its clock", async () => {
  const { clock, discord, call } = await setUp();
  const start = discord.now();
  clock.advance(1000);
  clock.suspend(60_000);
  clock.set(-3_600_000);
  expect(discord.now() - start).toBe(61_000);
  const { headers } = await call("GET", "/users/@me");
  const told = Date.parse(headers.get("date") ?? "");
  expect(told).toBe(Math.floor((start + 61_000) / 1000) * 1000);
  expect(told - clock.wall()).toBeGreaterThan(3_590_000);
  expect(instant(start)).toBe(createFakeClock().wall());
});
