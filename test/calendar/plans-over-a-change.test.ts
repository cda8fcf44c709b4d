import { expect, test } from "vitest";
import { planMessage } from "../../src/channels/discord/words/plan-message.ts";
import { loadCommands } from "../../src/commands/registry.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { farewell } from "../../src/conversation/farewell.ts";
import type { BenchRecord } from "../../src/conversation/record.ts";
import { instant, later } from "../../src/domain/units/quantity.ts";
import { createMemoryStore, emptyMemory } from "../../src/store/memory-store.ts";

const commands = await loadCommands();

/** What is said of a developer of ten minutes that is started at this instant in Lisbon. */
async function plans(iso: string) {
  const store = createMemoryStore(emptyMemory<BenchRecord>());
  const { keeper } = await BenchKeeper.open("t", { zone: "Europe/Lisbon" }, store, commands);
  const now = instant(Date.parse(iso));
  const hear = (text: string, at = now) => keeper.hear({ text, who: "Ines" }, at);
  const started = await hear("start developer for 10 minutes tank north");
  const plan = await hear("plan");
  const [run] = Object.values(keeper.record.bench.runs);
  const posted = run === undefined ? [] : planMessage(run, now, keeper.record);
  const leaving = farewell(keeper.record.bench, now);
  await hear("ready");
  const poured = await hear("in", later(now, 10));
  return [
    started.lines,
    plan.lines,
    posted.map(({ content }) => content),
    leaving?.lines ?? [],
    poured.lines,
  ].map((lines) => lines.join("\n"));
}

// Portugal, by the tz database: 02:00 to 01:00 on 25 October 2026, 01:00 to 02:00 on 28 March 2027.
test.each([
  { at: "2026-10-25T00:55:00Z", way: "back at 02:00 to 01:00" },
  { at: "2027-03-28T00:55:00Z", way: "forward at 01:00 to 02:00" },
])(
  "a plan from $at says that the clocks go $way, wherever a wall clock is to finish it",
  async (row) => {
    const line = `The clocks go ${row.way}: times after that are the new time.`;
    for (const text of await plans(row.at)) expect(text.split(line)).toHaveLength(2);
  },
);

test("a plan that is over before the clocks change, or begins after it, says nothing of them", async () => {
  for (const at of ["2026-10-25T00:45:00Z", "2026-10-25T01:00:31Z", "2026-11-28T19:30:00Z"]) {
    for (const text of await plans(at)) expect(text).not.toContain("clocks go");
  }
});
