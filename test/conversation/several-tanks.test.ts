import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { withFolder } from "../support/child.ts";
import { hear } from "../support/hear.ts";
import { readLines } from "../support/program.ts";
import { simulate } from "../support/simulate.ts";

const commands = await loadCommands();
const two = ["use the demo", "start developer tank north", "start developer tank south"];

/** The last answer changed nothing. */
function unchanged(before: readonly string[], said: string) {
  const heard = hear(commands, [...before, said]);
  expect(heard.record.bench).toEqual(hear(commands, before).record.bench);
  return heard;
}

test("the second start says by how much and for which tank it is put off", () => {
  const { reply, values } = hear(commands, two);
  expect(values.put_off_s).toBe(50);
  expect(reply.lines.join("\n")).toContain("Put off 50 s: North pours developer at 09:00:30.");
  expect(values.first_pour).toBe("2026-11-28T09:01:20Z");
});

test("with a person at each tank both pour at once", () => {
  const { values } = hear(commands, ["set one person per tank", ...two]);
  expect([values.put_off_s, values.first_pour]).toEqual([undefined, "2026-11-28T09:00:30Z"]);
});

test("back to one person, what is planned is moved apart and told", () => {
  const { reply, values } = hear(commands, [
    "set one person per tank",
    ...two,
    "set one person for all tanks",
  ]);
  expect(values.serving).toBe("one for all");
  expect(values.moved).toEqual([
    { tank: "South", put_off_s: 50, first_pour: "2026-11-28T09:01:20Z" },
  ]);
  expect(reply.lines.at(-1)).toContain("South is put off 50 s");
});

test("ready for one tank moves the other that is only planned", () => {
  const { reply, values } = hear(commands, [...two, "south ready"]);
  expect(reply.kind).toBe("reply");
  expect(values.moved).toEqual([
    { tank: "North", put_off_s: 20, first_pour: "2026-11-28T09:00:50Z" },
  ]);
});

test("in one tank, ready for the other is put off, and yes pours all the same", () => {
  const wet = [...two, "north ready"];
  const asked = hear(commands, [...wet, "south ready"]);
  expect(asked.reply.kind).toBe("question");
  expect(asked.values.put_off_s).toBeGreaterThan(0);
  const yes = hear(commands, [...wet, "south ready", "yes"]);
  expect(yes.reply.title).toContain("South: pour developer");
  expect(hear(commands, [...wet, "south ready", "no"]).reply.title).toContain(
    "Then South pours at",
  );
});

test("left answers for all tanks", () => {
  const { values } = hear(commands, [...two, "left"]);
  expect(values.tanks).toHaveLength(2);
});

test("more tanks than hands: it is said, asked, and nothing is started before a yes", () => {
  const crowd = Array.from({ length: 60 }, (_, n) => `start wash for 25 seconds tank t${n}x`);
  const many = ["use the demo", ...crowd];
  const heard = unchanged(many, "start wash for 25 seconds tank late");
  expect(heard.reply.kind).toBe("question");
  expect(heard.reply.title).toContain("No start within");
  const no = hear(commands, [...many, "start wash for 25 seconds tank late", "no"]);
  expect(no.reply.title).toBe("Then nothing is started.");
  const yes = hear(commands, [...many, "start wash for 25 seconds tank late", "yes"]);
  expect(yes.reply.kind).toBe("reply");
  const late = Object.values(yes.record.bench.runs).find(({ tank }) => tank === "Late");
  expect(late?.notes[0]?.text).toContain("by an explicit yes");
});

test.each([
  ["willow ready", two],
  ["ready tank willow", two],
  ["chart of tank willow", two],
  ["start developer tank north", two],
  ["rehearse developer 0 times faster", ["hello"]],
  ["rehearse developer 1000 times faster", ["hello"]],
  ["rehearse developer for 5 seconds", ["hello"]],
  ["chart", ["hello"]],
] as const)("%s is asked about or refused, and nothing changes", (said, before) => {
  const { reply } = unchanged(before, said);
  expect(["refusal", "question"]).toContain(reply.kind);
});

test("a rehearsal takes no bottle, counts nothing and says so everywhere", () => {
  const rehearsed = [
    "use the demo",
    "bottle developer 1 litre mixed today called Acorn",
    "rehearse developer five times faster tank north",
  ];
  const plan = hear(commands, rehearsed);
  expect(plan.values).toMatchObject({ rehearsal_speed: 5, bottles: {}, film: [] });
  for (const said of ["plan", "left", "north in", "summary", "chart", "wait", "stop"]) {
    const { reply } = hear(commands, [...rehearsed, said]);
    expect(reply.lines.join(" "), said).toContain("REHEARSAL with water");
  }
  const { record } = hear(commands, [...rehearsed, "north in", "north out", "yes"]);
  expect(record.bench.bottles.acorn?.used ?? 0).toBe(0);
  expect(Object.values(record.bench.bottles).map(({ used }) => used)).toEqual([0]);
});

test("motion-picture film may be rehearsed beside bottles that others share: it is water", () => {
  const { reply } = hear(commands, [
    "bottle developer 1 litre mixed today called Acorn",
    "use motion picture negative",
    "rehearse developer for 3:00",
  ]);
  expect(reply.kind).toBe("reply");
});

test("script mode draws the chart under a clock that stands still, and gives its file's name", () =>
  withFolder(async (folder) => {
    const said = ["use the demo", "start developer tank north", "in", "temperature 38", "chart"];
    const lines = readLines((await simulate(folder, "2026-11-28T19:30:00Z", said)).join(""));
    expect(lines.at(-1)?.values).toMatchObject({
      picture: "pictures/run-1.png",
      picture_svg: "pictures/run-1.svg",
      readings: 1,
    });
    expect(JSON.stringify(lines)).not.toContain(folder);
  }));
