import { expect, test } from "vitest";
import { faultWords, OwnFault } from "./fault.ts";

test("a fault is told by its kind and its place, never by its message", () => {
  const words = faultWords(new TypeError("no reading 'x' of Rui's note in /home/rui/data"));
  expect(words).toMatch(/^TypeError at src\/platform\/fault\.test\.ts:\d+$/);
});

test("a code of the system or of a service is told", () => {
  const full = Object.assign(new Error("ENOSPC, write '/home/rui'"), { code: "ENOSPC", stack: "" });
  expect(faultWords(full)).toBe("Error (ENOSPC)");
  const api = Object.assign(new Error("x"), { name: "DiscordAPIError[50035]", stack: "" });
  expect(faultWords(Object.assign(api, { code: 50_035 }))).toBe("DiscordAPIError[50035]");
});

test("what is ours is told as it is", () => {
  expect(faultWords(new OwnFault("a status was refused: 400"))).toBe("a status was refused: 400");
});

test.each([
  { thrown: "a private note" },
  { thrown: { note: "a private note" } },
  { thrown: Object.assign(new Error("m"), { name: "/home/a private note", stack: "" }) },
  { thrown: Object.assign(new Error("m"), { code: "a private note", stack: "" }) },
])("$thrown shows nothing", ({ thrown }) => {
  expect(faultWords(thrown)).not.toContain("private");
});
