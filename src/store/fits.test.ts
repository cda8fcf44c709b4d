import { expect, test, vi } from "vitest";
import { z } from "zod";
import { MemoryDisk } from "../../test/support/memory-disk.ts";
import { seeded } from "../../test/support/seeded.ts";
import { liveShortSession } from "../../test/support/short-session.ts";
import { type BenchRecord, recordSchema } from "../conversation/record.ts";
import { misfit } from "./fits.ts";

const { records } = await liveShortSession(new MemoryDisk(), { tells: () => {}, done: () => {} });

const ODD: readonly unknown[] = [null, -1, 0.5, "", "x", [], {}, [{}], { a: 1 }, undefined, true];

/** A copy with one value in it replaced, along a random path; all beside the path is shared. */
function spoiled(value: unknown, chance: () => number): unknown {
  const isHolder = typeof value === "object" && value !== null;
  if (!isHolder || Object.keys(value).length === 0 || chance() < 0.1) {
    return ODD[Math.floor(chance() * ODD.length)];
  }
  const keys = Object.keys(value);
  const key = keys[Math.floor(chance() * keys.length)] ?? "";
  const inner = (value as Record<string, unknown>)[key];
  if (Array.isArray(value)) return value.with(Number(key), spoiled(inner, chance));
  return { ...value, [key]: spoiled(inner, chance) };
}

test("says the same as reading the whole, of records that are spoilt anywhere", () => {
  let fit = 0;
  let unfit = 0;
  for (let seed = 1; seed <= 3000; seed += 1) {
    const chance = seeded(seed);
    const known = records[Math.floor(chance() * records.length)] as BenchRecord;
    let next: unknown = known;
    for (let time = 0; time <= chance() * 3; time += 1) next = spoiled(next, chance);
    const whole = recordSchema.safeParse(next);
    expect(misfit(recordSchema, next, known) === undefined, `seed ${seed}`).toBe(whole.success);
    if (whole.success) fit += 1;
    else unfit += 1;
  }
  expect(fit).toBeGreaterThan(300);
  expect(unfit).toBeGreaterThan(300);
});

test("the place is told as the whole would tell it", () => {
  const [known] = records;
  const next = { ...known, bench: { ...known?.bench, notes: [{ at: 1, by: "Ines" }] } };
  const issue = recordSchema.safeParse(next).error?.issues[0];
  expect(misfit(recordSchema, next, known)?.place).toBe(issue?.path.join("."));
});

test("what has not changed is not looked at again, wherever it stands", () => {
  const look = vi.fn(() => true);
  const schema = z.object({
    items: z.array(z.custom(look)),
    named: z.record(z.string(), z.custom(look)),
  });
  const items = Array.from({ length: 100 }, (_, n) => ({ n }));
  const named = Object.fromEntries(items.map((item) => [`n${item.n}`, item]));
  const known = { items, named };
  expect(misfit(schema, known, undefined)).toBeUndefined();
  expect(look).toHaveBeenCalledTimes(200);
  const next = { items: [...items.slice(5), { n: 100 }], named: { ...named, n7: { n: 8 } } };
  expect(misfit(schema, next, known)).toBeUndefined();
  expect(look).toHaveBeenCalledTimes(202);
});
