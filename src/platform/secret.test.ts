import { inspect } from "node:util";
import { expect, test } from "vitest";
import { Secret } from "./secret.ts";

test("a secret is given to who asks for it and shown to nobody else", () => {
  const secret = new Secret("abc.def");
  expect(secret.reveal()).toBe("abc.def");
  const shown = [`${secret}`, JSON.stringify({ secret }), inspect({ secret }, { depth: 9 })];
  for (const text of shown) {
    expect(text).toContain("[secret]");
    expect(text).not.toContain("abc");
  }
});
