import { describe, expect, test } from "vitest";
import { shippedSheets } from "../../src/data/sheets.ts";
import { talk } from "../support/talk.ts";

/** The sentence that starts a sheet's whole process, with times for all that it leaves open. */
const started = (id: string): readonly string[] => {
  const sheet = shippedSheets.find((one) => one.id === id);
  const open = sheet?.baths.filter(({ time }) => time === undefined) ?? [];
  return [`use sheet ${sheet?.name}`, "start a run", ...open.map(() => "2 minutes")];
};
const recalledBaths = (id: string): readonly string[] =>
  (shippedSheets.find((one) => one.id === id)?.baths ?? [])
    .filter(({ time }) => time?.origin.kind === "from memory")
    .map(({ name }) => name);

const withRecalled = shippedSheets.filter(({ id }) => recalledBaths(id).length > 0);

describe("figures from memory are no default", () => {
  test("some of what ships is from memory: else these tests would say nothing", () => {
    expect(withRecalled.map(({ id }) => id)).toEqual(
      expect.arrayContaining(["colour-negative", "reversal-six-bath", "motion-picture-negative"]),
    );
  });

  test.each(withRecalled.map(({ id }) => [id]))(
    "%s: asked once, every such bath by name, and nothing is started",
    (id) => {
      const { reply, bench } = talk(undefined, ...started(id));
      expect(reply.kind).toBe("question");
      expect(bench.runs).toEqual({});
      for (const bath of recalledBaths(id)) expect(reply.title).toContain(bath);
      expect(reply.title).toContain("Check them against your sheet");
      expect(talk(undefined, ...started(id), "why").reply.lines.join(" ")).toContain("from memory");
      expect(talk(undefined, ...started(id), "no").bench.runs).toEqual({});
    },
  );

  test.each(withRecalled.map(({ id }) => [id]))(
    "%s: a yes starts it, stands in its record, and holds for that run alone",
    (id) => {
      const { run } = talk(undefined, ...started(id), "yes");
      expect(run?.notes.map(({ text }) => text).join(" ")).toMatch(
        /from memory, by an explicit yes, for this run alone/,
      );
      const again = talk(undefined, ...started(id), "yes", "stop", ...started(id).slice(1));
      expect(again.reply.kind).toBe("question");
    },
  );

  test.each([
    ["start developer", "the published developer was read: Z-131, Table 4-1"],
    ["start developer for 3:00", "told by the user"],
    ["rehearse colour negative", "water only"],
  ])("%s asks nothing: %s", (sentence) => {
    expect(talk(undefined, sentence).reply.kind).toBe("reply");
  });

  test("a time the user gives takes a bath out of the question", () => {
    expect(talk(undefined, "start bleach").reply.kind).toBe("question");
    const { reply, run } = talk(undefined, "start bleach for 6:30");
    expect(reply.kind).toBe("reply");
    expect(run?.notes).toEqual([]);
  });

  test("a sheet with no figures at all asks for them, and takes none", () => {
    const { reply, bench } = talk(undefined, "use sheet reversal three bath", "start a run");
    expect(reply.title).toContain("How long does yours say?");
    expect(bench.runs).toEqual({});
  });
});

test("a motion-picture developer by itself is reminded of prebath and backing removal", () => {
  const lines = ["use sheet motion picture negative", "start developer"] as const;
  expect(talk(undefined, ...lines).reply.kind).toBe("question");
  for (const start of [
    [...lines, "yes"],
    [lines[0], "start developer for 3:00"],
  ]) {
    const { reply } = talk(undefined, ...start);
    expect(reply.cautions.join(" ")).toContain("prebath, then backing removal");
  }
  expect(talk(undefined, "start developer").reply.cautions.join(" ")).not.toContain("prebath");
});
