import { expect, test } from "vitest";
import { cellar, talk, wet } from "../support/talk.ts";

/** The walk as far as the developer's batch, all invented. */
const asked = ["learn a sheet", "foo", "c41", "ml", "developer"] as const;
const BATCH = "Developer: how much does one batch make?";

test.each(["next", "left", "what next", "yes", "yep", "out", "ready"])(
  "%s with no run open tells what the sheet's question is, which stays open",
  (word) => {
    const { reply } = talk(undefined, ...asked, word);
    expect(reply.title.toLowerCase()).toContain(BATCH.toLowerCase());
    expect(reply.ask).toMatchObject({ command: "learn", slot: "answer" });
    expect(talk(undefined, ...asked, word, "skip").bench.draft?.answers.bath).toEqual({
      developer: { total: null },
    });
  },
);

test("skip means the sheet's question after any other word, and when it has waited long", () => {
  const { bench, reply } = talk(undefined, ...asked, "skip", "3:15", "next", "skip");
  expect(bench.draft?.answers.bath?.developer).toMatchObject({ total: null, temperature: null });
  expect(reply.title).toContain("not on the sheet");
  const late = talk(undefined, ...asked, 900, "skip");
  expect(late.bench.draft?.answers.bath?.developer).toEqual({ total: null });
});

test("skip beside a planned run is the sheet's; with film wet it is the run's", () => {
  const planned = talk(cellar, "start cellar tank north", ...asked, 900, "skip");
  expect(planned.bench.draft?.answers.bath?.developer).toEqual({ total: null });
  const running = talk(cellar, ...asked, ...wet, 200, "skip");
  expect(running.reply.title).toContain("Developer is on the film");
  expect(running.bench.draft?.answers.bath).toBeUndefined();
  const named = talk(cellar, "start cellar tank north", ...asked, 900, "skip developer");
  expect(named.reply.title).toContain("Skip developer?");
});

test.each(["wait", "ok"])(
  "%s is no question about the question: it may be a run's word",
  (word) => {
    const { reply } = talk(cellar, "start cellar tank north", ...asked, word);
    expect(reply.title).not.toMatch(/^Developer: how much/);
  },
);

test("yes is a pour's where a pour waits, and the question's again where all is answered", () => {
  const { reply } = talk(
    undefined,
    ...asked,
    "undo",
    "baths",
    "wash",
    "3:00",
    "skip",
    "skip",
    900,
    "yes",
  );
  expect(reply.title).toContain("Compare each line");
  expect(reply.kind).toBe("question");
});

test("undo takes an answer back in a few words and asks that question again", () => {
  const { reply, bench } = talk(undefined, ...asked, "skip", "undo");
  expect(reply.title).toBe(
    `Taken back: Developer total: not on the sheet. developer: how much does one batch make? Like 1 litre. Say skip if it is not mixed from parts.`,
  );
  expect(reply.ask).toMatchObject({ command: "learn" });
  expect(bench.draft?.answers.bath).toBeUndefined();
  const again = talk(undefined, ...asked, "skip", "undo", "1 litre");
  expect(again.bench.draft?.answers.bath?.developer).toEqual({ total: 1000 });
});

test.each(["no", "nope"])("%s to a sheet's question means that the paper does not say", (no) => {
  const { bench, reply } = talk(undefined, ...asked, "skip", "3:15", no);
  expect(bench.draft?.answers.bath?.developer).toMatchObject({ temperature: null });
  expect(reply.title).toContain("how is it agitated?");
  expect(talk(undefined, ...asked, "skip", no).reply.title).toMatch(/^That one I need/);
});

test("no to whether all is right shows every line again", () => {
  const wash = ["undo", "wash", "3:00", "skip", "skip"] as const;
  const { reply } = talk(undefined, ...asked, ...wash, "no");
  expect(reply.title).toContain("Compare each line");
  expect(reply.lines).toContain("5. wash time: at least 3:00");
});

test("the part-full time is corrected by the words it is read back with", () => {
  const keeps = ["skip", "3:15", "skip", "skip", "skip", "6 weeks full and 4 weeks half full"];
  for (const words of ["keeps part full", "keeps half full"]) {
    const { bench } = talk(undefined, ...asked, ...keeps, `change developer ${words} to 3 weeks`);
    expect(bench.draft?.answers.bath?.developer).toMatchObject({ keeps: 42, keepsPart: 21 });
  }
});

test("a rinse of ten seconds is told how to be read, since pouring out lies inside the time", () => {
  const final = ["learn a sheet", "foo", "ecn2", "ml", "developer, wash", "skip", "3:00"];
  const rest = ["skip", "skip", "skip", "skip", "skip", "skip", "skip"];
  const { reply } = talk(undefined, ...final, ...rest, "10 s");
  expect(reply.title).toContain("Read it with those on top: 20 s.");
  const { bench } = talk(undefined, ...final, ...rest, "10 s", "20 s");
  expect(bench.draft?.answers.bath?.wash?.time).toEqual({ time: 20, sense: "at least" });
});

test("undo of the first word of a sheet leaves no question", () => {
  const { reply, bench } = talk(undefined, "learn a sheet", "undo");
  expect(bench.draft).toBeUndefined();
  expect(reply.ask).toBeUndefined();
});

test("undo reads no old question aloud", () => {
  const { reply } = talk(cellar, ...wet, 30, "temperature 21.5", "undo");
  expect(reply.title).toMatch(/^Taken back: /);
  expect(reply.title).not.toContain("?");
  expect(reply.say).not.toContain("?");
});

test("an answer that is refused leaves the question open, and says it again", () => {
  const start = ["use sheet black and white", "start developer"] as const;
  const { reply } = talk(undefined, ...start, "10 s");
  expect(reply.title).toContain("more than 10 seconds");
  expect(reply.lines.join(" ")).toContain("How long does yours say?");
  expect(reply.ask).toMatchObject({ command: "start", slot: "duration" });
  expect(talk(undefined, ...start, "10 s", "20 seconds").stage?.time).toBe(20);
  expect(talk(undefined, ...start, "10 s", "5 s", "two days", "6:30").stage?.time).toBe(390);
});

test("which ounce is not asked again where the amount is what is wrong", () => {
  const { reply } = talk(undefined, "use sheet demo", "mix 10000 quarts of developer", "us");
  expect(reply.kind).toBe("refusal");
  expect(reply.ask).toBeUndefined();
});

test("a refused yes asks nothing again: whether to is not asked twice", () => {
  const { reply } = talk(undefined, "learn a sheet", "stop teaching", "yes");
  expect(reply.ask).toBeUndefined();
});
