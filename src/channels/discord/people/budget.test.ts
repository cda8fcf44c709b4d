import { expect, test } from "vitest";
import { Budget } from "./budget.ts";

test("two wet hands are always heard", () => {
  const budget = new Budget();
  for (let at = 0; at < 600_000; at += 1000) expect(budget.spend("a", at)).toBe("heard");
});

test("fifty words in a second: some are heard, it is said once, then silence; others are heard", () => {
  const budget = new Budget();
  const said = Array.from({ length: 50 }, (_, at) => budget.spend("a", at * 20));
  expect(said.filter((one) => one === "heard").length).toBeLessThanOrEqual(14);
  expect(said.filter((one) => one === "told")).toHaveLength(1);
  expect(said.at(-1)).toBe("silent");
  expect(budget.spend("b", 1000)).toBe("heard");
  expect(budget.spend("a", 5000)).toBe("heard");
});

test("told again no sooner than ten seconds later", () => {
  const budget = new Budget();
  let told = 0;
  for (let at = 0; at < 30_000; at += 10) if (budget.spend("a", at) === "told") told += 1;
  expect(told).toBeLessThanOrEqual(3);
});
