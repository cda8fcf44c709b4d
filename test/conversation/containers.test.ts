import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { hear } from "../support/hear.ts";

const commands = await loadCommands();
const stages = (said: readonly string[]) =>
  hear(commands, said).values.stages as readonly {
    bath: string;
    time_s: number;
    agitate_at_s: readonly number[];
  }[];

test("a tank turned over keeps the sheet's cadence, told or not", () => {
  const untold = stages(["use the demo", "start developer tank north"]);
  const told = stages([
    "use the demo",
    "tank north is turned over by hand",
    "start developer tank north",
  ]);
  expect(untold[0]?.agitate_at_s.length).toBeGreaterThan(2);
  expect(told).toEqual(untold);
});

test("a drum turns from the start of each bath, and nothing is agitated on the beat", () => {
  const drum = stages(["use the demo", "tank north is rotary", "start saltmarsh demo tank north"]);
  expect(drum.length).toBeGreaterThan(2);
  expect(drum.every(({ agitate_at_s }) => agitate_at_s.join() === "0")).toBe(true);
  const { record } = hear(commands, [
    "use the demo",
    "tank north is rotary",
    "start developer tank north",
  ]);
  const [run] = Object.values(record.bench.runs);
  expect(run?.stages[0]?.agitation?.initial).toBe(run?.stages[0]?.time);
});

test("sheet film on a rack is lifted: 4.5 s, 10 s rest, then every 10 s: SS0514, p. 2-13 (read)", () => {
  const [developer] = stages([
    "use the demo",
    "tank north is a rack",
    "start developer tank north",
  ]);
  expect(developer?.agitate_at_s.slice(0, 4)).toEqual([0, 14.5, 24.5, 34.5]);
});

test("the sheet's own times stay: how a tank is moved changes no time by itself", () => {
  const said = ["use the demo", "tank north is rotary"];
  const plain = stages(["use the demo", "start saltmarsh demo tank south"]);
  const drum = stages([...said, "start saltmarsh demo tank north"]);
  expect(drum.map(({ time_s }) => time_s)).toEqual(plain.map(({ time_s }) => time_s));
  expect(hear(commands, said).reply.lines.join(" ")).toContain("turned over by hand");
});

test("new reels keep what was told of the movement, and tanks shows it", () => {
  const { reply, record } = hear(commands, [
    "tank north is rotary",
    "tank north has two 35 mm reels of 300 ml each",
    "tanks",
  ]);
  expect(record.bench.tanks.north?.agitation).toBe("rotary");
  expect(reply.lines.join(" ")).toContain("turns all the time");
});

test("a bottle's capacity by the litre is shown with its sheet and counted for its bottle", () => {
  const shown = hear(commands, ["show black and white"]).reply.lines.join("\n");
  expect(shown).toMatch(/fixer, capacity: 20 units a litre/);
});

const poured = (...before: readonly string[]) =>
  hear(commands, [...before, "use motion picture negative", "start developer for 3:00 from Acorn"]);
const bottled = "bottle developer 1 litre mixed today called Acorn";

test("motion-picture negative is refused for a bottle of another process", () => {
  const { values, record } = poured("use colour negative", bottled);
  expect(values.reason).toBe("wrong-process");
  expect(record.bench.runs).toEqual({});
});

test("motion-picture negative is refused for a bottle nobody knows the process of", () => {
  const { reply, values, record } = poured(bottled);
  expect(values.reason).toBe("shared-bath");
  expect(values.bottles).toEqual(["Acorn"]);
  expect(reply.lines.join(" ")).toContain("Founded on");
  expect(record.bench.runs).toEqual({});
});

test("motion-picture negative is poured in a bath of its own", () => {
  const { reply, record } = poured("use motion picture negative", bottled);
  expect(reply.kind).toBe("reply");
  expect(Object.values(record.bench.runs).map(({ process }) => process)).toEqual(["ECN-2"]);
});
