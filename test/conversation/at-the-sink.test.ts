import { describe, expect, test } from "vitest";
import { attic, cellar, talk, wet } from "../support/talk.ts";

const BOTTLE = "bottle developer 1 litre mixed today";

const texts = (reply: { readonly title: string; readonly lines: readonly string[] }): string =>
  [reply.title, ...reply.lines].join("\n");

describe("two tanks, and a question open", () => {
  const both = ["start developer for 9 minutes tank north", 1, "in", 1] as const;
  const asked = [...both, "start developer for 9 minutes tank south", "skip"] as const;

  test("in south is that tank's word while it is filled, not the answer to which tank", () => {
    const { reply, bench } = talk(undefined, ...asked, "in south");
    expect(reply.title).toContain("South: developer in");
    expect(Object.values(bench.runs).map(({ stages }) => stages[0]?.skipped)).not.toContain(true);
  });

  test("in north answers it once North is full", () => {
    expect(talk(undefined, ...asked, "in north").reply.title).toContain("Developer is on the film");
  });
});

describe("readings before the pour", () => {
  const readings = ["start developer one roll of 120", "developer is at 19.2", 5] as const;

  test("what the bath was brought away from is no fault of the run", () => {
    const said = [...readings, "developer is at 20", 20, "in", 470, "out", "skip", "no", "summary"];
    const text = texts(talk(attic, ...said).reply);
    expect(text).toContain("read 19.2, 20 °C");
    expect(text).not.toContain("Deviation:");
  });

  test("what it was poured at is", () => {
    const said = [...readings, 20, "in", 470, "out", "skip", "no", "summary"];
    expect(texts(talk(attic, ...said).reply)).toContain("Deviation: developer: read 19.2 °C");
  });
});

test("once a run is stopped a late reading moves no pour-out", () => {
  const stopped = [...wet, 60, "stop", "yes", "no"] as const;
  const { reply } = talk(attic, ...stopped, "developer was at 19 a minute ago");
  expect(texts(reply)).not.toContain("adjust a little");
});

test("a sheet without a band: a reading is held against the aim", () => {
  const baths = cellar.baths.map(({ tolerance: _, ...bath }) => bath);
  const sheet = { ...cellar, baths };
  const { reply } = talk(sheet, "start developer one roll of 120", "developer is at 33");
  expect(texts(reply)).toMatch(/degrees (under|over) the aim[\s\S]*Do not pour yet/);
});

describe("a bath that is half mixed", () => {
  const half = ["use sheet saltmarsh demo", "mix 1 litre of developer", "water in"] as const;

  test.each([
    ["water in", "part A not in"],
    ["A in", "not clear yet"],
  ])("after %s it is not put up as fresh without a question", (last, missing) => {
    const said = last === "water in" ? half : [...half, last];
    const { reply, bench } = talk(undefined, ...said, BOTTLE);
    expect(reply.title).toContain(missing);
    expect(bench.bottles).toEqual({});
  });

  test("another batch, or another bath, is", () => {
    expect(Object.keys(talk(undefined, ...half, BOTTLE, "yes").bench.bottles)).toHaveLength(1);
    const blix = talk(undefined, ...half, "bottle blix 1 litre mixed today").bench.bottles;
    expect(Object.keys(blix)).toHaveLength(1);
  });
});

describe("a pour that is open", () => {
  const planned = ["start developer for 5 minutes"] as const;

  test("start alone plans no other run beside one that waits", () => {
    for (const said of [
      [...planned, "start"],
      [...planned, "ready", "start"],
    ]) {
      const { reply, bench } = talk(undefined, ...said);
      expect(reply.kind).toBe("refusal");
      expect(reply.title).toMatch(/^Tank: (developer waits. Say ready|pour developer. Say in)/);
      expect(Object.keys(bench.runs)).toHaveLength(1);
    }
  });

  test("a word that was not heard right is not taken for a part of a mix", () => {
    const { reply } = talk(undefined, ...planned, "ready", "glug in");
    expect(reply.say).toBe("Tank waits. Say in when it is full.");
  });
});

describe("a number alone beside a run", () => {
  test.each(["37.5", "its 37.5", "37,5", "thirty seven five", "reads 37.5 now"])(
    "%s is what the thermometer reads",
    (said) => {
      const { run } = talk(undefined, ...wet, 60, said);
      expect(run?.readings.map(({ temperature }) => temperature)).toEqual([37.5]);
    },
  );

  test("also while another reading's question is open", () => {
    const { run } = talk(undefined, ...wet, 60, "temperature 36.9", 20, "its 37.0 now");
    expect(run?.readings.map(({ temperature }) => temperature)).toEqual([36.9, 37]);
  });

  test("without a run, or of no darkroom, it is nothing", () => {
    expect(talk(undefined, "37.5").values.reason).toBe("not-understood");
    expect(talk(undefined, ...wet, "600").run?.readings).toEqual([]);
  });
});

describe("one bottle and two tanks", () => {
  const reels = (tank: string, ml: number) => `tank ${tank} has two 120 reels of ${ml} ml each`;
  const started = (ml: number, ...more: readonly string[]) =>
    talk(
      undefined,
      "use sheet saltmarsh demo",
      ...more,
      reels("north", ml),
      reels("south", ml),
      BOTTLE,
      "start developer two rolls of 120 tank north",
      "start developer two rolls of 120 tank south",
    );
  const pours = ({ bench }: ReturnType<typeof talk>) =>
    Object.values(bench.runs).map(({ stages }) => stages[0]?.pourAt ?? 0);

  test.each([[[]], [["one person per tank"]]])(
    "a litre that is in North is not poured in South before it is out again (%j)",
    (more) => {
      const [north = 0, south = 0] = pours(started(500, ...more));
      // 3:25 by the invented sheet, from the middle of a window of 20 s.
      expect((south - north) / 1000).toBeGreaterThanOrEqual(10 + 205);
    },
  );

  test("half a litre each is there for both at once", () => {
    const [north = 0, south = 0] = pours(started(250));
    expect((south - north) / 1000).toBeLessThan(205);
  });
});

test("a bath that only one tank is at tells which tank a word is about", () => {
  const { reply, bench } = talk(
    undefined,
    "use sheet saltmarsh demo",
    "start saltmarsh demo tank north",
    "in",
    200,
    "out",
    5,
    "in",
    "start saltmarsh demo tank south",
    20,
    "developer in",
  );
  expect(reply.title).toContain("South: developer in");
  expect(Object.values(bench.runs).map(({ current }) => current)).toEqual([1, 0]);
});

describe("several bottles that hold the same", () => {
  const shelf = [
    "use sheet saltmarsh demo",
    "bottle developer 1 litre mixed today called Acorn",
    "bottle blix 1 litre mixed today called Banjo",
    "bottle blix 1 litre mixed yesterday called Osprey",
  ] as const;
  const start = "start saltmarsh demo two rolls of 120 tank north";
  const poured = ({ bench, run }: ReturnType<typeof talk>) =>
    run?.stages.map(({ bottle }) =>
      bottle === undefined ? undefined : bench.bottles[bottle]?.name,
    );

  test("the one that is named when asked is its bath's, whichever bath that is", () => {
    const asked = talk(undefined, ...shelf, start, "Osprey");
    expect(poured(asked)).toEqual(["Acorn", "Osprey", undefined, undefined]);
  });

  test("two are asked about one after the other", () => {
    const maple = "bottle developer 1 litre mixed yesterday called Maple";
    const asked = talk(undefined, ...shelf, maple, start, "Maple", "Banjo");
    expect(poured(asked)).toEqual(["Maple", "Banjo", undefined, undefined]);
  });

  test("one named with the start is for the bath it holds; one that fits none is stopped", () => {
    const asked = talk(undefined, ...shelf, `${start} from Osprey`);
    expect(poured(asked)).toEqual(["Acorn", "Osprey", undefined, undefined]);
    const stop = "bottle stop 1 litre mixed today called Cedar";
    const wrong = talk(undefined, ...shelf, stop, `${start} from Cedar`);
    expect(wrong.reply.title).toContain("Stop. Cedar holds stop");
  });
});
