import { expect, test } from "vitest";
import { oncePer } from "./once-per.ts";

test("the same key and rest are worked out once, another rest again", () => {
  let worked = 0;
  const sum = oncePer((one: { readonly n: number }, more: number) => {
    worked += 1;
    return one.n + more;
  });
  const key = { n: 1 };
  expect([sum(key, 2), sum(key, 2), sum(key, 3), sum({ n: 1 }, 3)]).toEqual([3, 3, 4, 4]);
  expect(worked).toBe(3);
});
