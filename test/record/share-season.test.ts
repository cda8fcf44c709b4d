import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { hear } from "../support/hear.ts";

const commands = await loadCommands();
const SEASON = [
  "use the demo",
  "bottle developer 1 litre mixed today called Zdenka",
  "start developer two rolls of 120 tank plover from Zdenka",
  "ready",
  "in",
  "note Rui's reel was wet",
  "out",
];

test("a season goes to the group by preview and yes, without a name in it", () => {
  const preview = hear(commands, [...SEASON, "share season"]).reply;
  expect(preview.kind).toBe("question");
  const out = JSON.stringify([preview.share, preview.picture]);
  expect(out).not.toMatch(/zdenka|plover|rui/i);
  expect(preview.share?.lines.join(" ")).toContain("Bottle number 1");
  expect(preview.lines.join(" ")).toContain("Left out");
  const shared = hear(commands, [...SEASON, "share season", "yes"]).reply;
  expect(JSON.stringify([shared.lines, shared.picture])).not.toMatch(/zdenka|plover|rui/i);
  const kept = hear(commands, [...SEASON, "share season", "no"]).reply;
  expect(kept.title).toBe("Nothing was shared.");
});

test("a bench without runs has no season to share", () => {
  expect(hear(commands, "share season").reply.facts.reason).toBe("no-run");
});
