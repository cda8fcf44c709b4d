import { expect, test } from "vitest";
import { readWish } from "./wishes.ts";

test.each([
  "join",
  "Join me.",
  "come in",
  "please come in",
  "Come into the voice channel",
  "join us please",
  "join the call",
  "join voice",
])("%s asks to come in", (text) => expect(readWish(text)).toBe("join"));

test.each(["leave", "Leave the call.", "please leave the voice channel", "hang up"])(
  "%s asks to go",
  (text) => expect(readWish(text)).toBe("leave"),
);

test.each([
  "in",
  "left",
  "joining",
  "come in at 38 degrees",
  "join the rolls",
  "leave roll 3 out",
  "skip",
  "",
])("%j is for the bench", (text) => expect(readWish(text)).toBeUndefined());
