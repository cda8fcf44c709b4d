import { expect, test } from "vitest";
import type { Api } from "../delivery/api.ts";
import { createRolesOf } from "./roles-of.ts";

function setUp(answer: () => Promise<unknown>) {
  let asked = 0;
  const call = (): Promise<unknown> => {
    asked += 1;
    return answer();
  };
  const api: Api = { request: call, call };
  return { rolesOf: createRolesOf(api, () => 0), asked: () => asked };
}

test("somebody who says much at once is asked about once", async () => {
  const { rolesOf, asked } = setUp(async () => ({ roles: ["7"] }));
  const all = await Promise.all(Array.from({ length: 12 }, () => rolesOf("1", "2")));
  expect(all).toEqual(Array.from({ length: 12 }, () => ["7"]));
  expect(await rolesOf("1", "2")).toEqual(["7"]);
  expect(asked()).toBe(1);
});

test("a question that failed is asked again", async () => {
  const { rolesOf, asked } = setUp(() => Promise.reject(new Error("down")));
  expect(await Promise.all([rolesOf("1", "2"), rolesOf("1", "2")])).toEqual([undefined, undefined]);
  expect(await rolesOf("1", "2")).toBeUndefined();
  expect(asked()).toBe(2);
});
