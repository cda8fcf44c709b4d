import { describe, expect, test } from "vitest";
import { logOf } from "../../src/commands/diagnosis-log.ts";
import { faultTables } from "../../src/data/faults.ts";
import { rankCauses } from "../../src/domain/faults/rank.ts";
import { celsius, instant, units } from "../../src/domain/units/quantity.ts";
import { benchAfter, type Trouble } from "../support/fault-bench.ts";
import { at, evening } from "../support/runs.ts";

// Expected causes come from outside the project; the source stands beside each case. Codes:
//   T10-1  US Navy Photography (Basic), NAVEDTRA 14209, Table 10-1 (read in excerpt)
//   N249   the same, life of a fixing bath (read in excerpt)
//   A84, A85, A86  SS0509-8 Laboratory Procedures, lesson 3, those pages (read in excerpt)
//   A11    SS0509-8, p. 11: a little fixer spoils a developer (read)
//   EP2    SS0514, process monitoring: time, temperature, agitation, strength (read in excerpt)
//   A106   SS0509, exhaustion of a developer (read in excerpt)
//   TG     TG2044-1 process theory guide, p. 30 (read)
//   FC     CIS-254, film troubleshooting (read in excerpt)
//   UD     a photographic dictionary, "under-develop" (read in excerpt)
//   FAOL   FAOL training text, physical process control p. 10 (read)
//   CF2, CF6  The Chief Failures in Negative-Making, parts 2 and 6 (read in excerpt)
//   CRUNCHY, FIRSTFIX, FINN, TANG, BLANK, SEARING, GOO, KORAKS, FOTOSIDAN, MANU, WATERMARK, PINK,
//   LABFAQ, STUCK, LOADING, REMJET  accounts and help texts named in data/faults/sources.json
//   MP8    Modern Photography in Theory and Practice, ch. VIII (read in excerpt)
//   RW     FAOL training text, re-washing (read in excerpt)
//   CP     common practice, no source
// Which log figure stands for which trouble is our own reading of those sources.

type Case = {
  readonly symptom: string | readonly string[];
  readonly given?: Readonly<Record<string, string>>;
  readonly process?: "C-41" | "black-and-white";
  /** In front without the log: the first cause, or where the source gives no order, any of these. */
  readonly without: string | readonly string[];
  readonly log?: Trouble;
  /** In front with the log. */
  readonly with?: string;
  readonly source: string;
};

const cases: Readonly<Record<string, Case>> = {
  // Without a log: the table and the answers.
  "spots in the image, at the top edge: air": {
    symptom: "spots",
    given: { shine: "in the image", place: "one end or edge" },
    without: "air-bells",
    source: "T10-1",
  },
  "spots, and loaded wet": {
    symptom: "spots",
    without: "drying-drops",
    log: { note: "loaded wet" },
    with: "water-drops",
    source: "WATERMARK",
  },
  "blank, numbers missing: fixer first, dead developer or water": {
    symptom: "blank",
    given: { numbers: "missing" },
    without: "wrong-order",
    source: "FIRSTFIX, CRUNCHY",
  },
  "blank, numbers crisp: not exposed": {
    symptom: "blank",
    given: { numbers: "crisp" },
    without: "not-exposed",
    source: "TANG, BLANK",
  },
  "blank silver film, marked black and white, numbers gone": {
    symptom: "blank",
    given: { marking: "black and white", extent: "one roll", numbers: "missing" },
    without: "silver-erased",
    source: "FINN",
  },
  "thin, numbers faint: too cold, too short, exhausted, dilute": {
    symptom: "thin",
    given: { numbers: "faint" },
    without: "cold-developer",
    source: "FC, UD",
  },
  "thin, numbers normal: under-exposed": {
    symptom: "thin",
    given: { numbers: "crisp" },
    without: "under-exposed",
    source: "TANG, A86",
  },
  "dense, high contrast: too hot, too long, too strong": {
    symptom: "dense",
    given: { contrast: "high" },
    without: "hot-developer",
    source: "FC, EP2",
  },
  "dense, numbers normal: over-exposed": {
    symptom: "dense",
    given: { numbers: "crisp", contrast: "normal" },
    without: "over-exposed",
    source: "A86, TANG",
  },
  "low contrast: weak agitation, dilution, oxidation": {
    symptom: "flat",
    without: "weak-agitation",
    source: "FC, UD",
  },
  "casts crossed: off in temperature or time": {
    symptom: "crossed",
    without: ["cold-developer", "hot-developer"],
    source: "FAOL",
  },
  "even cast, an old roll has it too: the scan": {
    symptom: "cast",
    given: { elsewhere: "the same" },
    without: "scan",
    source: "LABFAQ",
  },
  "even cast, an old roll scans well: the film": {
    symptom: "cast",
    given: { elsewhere: "no" },
    without: "old-film",
    source: "LABFAQ",
  },
  "muddy: silver left by blix or bleach": {
    symptom: "muddy",
    without: ["bleach-spent", "bleach-short"],
    source: "TG",
  },
  "milky: not fixed out": {
    symptom: "milky",
    without: ["fix-short", "fixer-spent"],
    source: "N249, FOTOSIDAN",
  },
  "milky on one roll, in patches, will not wipe off: turns touched or not fixed": {
    symptom: ["milky", "band"],
    given: { extent: "one roll" },
    without: "film-touching",
    source: "STUCK; Practical Photography, par. 234",
  },
  "yellow stain after drying: fixer": {
    symptom: "yellow-stain",
    process: "black-and-white",
    without: ["fixer-spent", "fix-short"],
    source: "A85",
  },
  "brown stain: old dark fixer": {
    symptom: "brown-stain",
    process: "black-and-white",
    without: "fixer-spent",
    source: "A86, MP8",
  },
  "pink tint: dye left by a short fix or wash": {
    symptom: "pink-tint",
    process: "black-and-white",
    without: "dye-left",
    source: "CP",
  },
  "uneven cyan, a later bath was new": {
    symptom: "uneven-cast",
    given: { changed: "blix or fixer" },
    without: "later-bath-foul",
    source: "KORAKS",
  },
  "fog over the edges: tank or loading": {
    symptom: "fogged",
    given: { over: "over the edges" },
    without: "light-in-tank",
    source: "T10-1",
  },
  "fog inside the picture: camera": {
    symptom: "fogged",
    given: { over: "inside the picture" },
    without: "camera-leak",
    source: "T10-1",
  },
  "part positive: light during development": {
    symptom: "part-positive",
    without: "light-in-developing",
    source: "A85",
  },
  "round clear spots: air": {
    symptom: "clear-spots",
    without: "air-bells",
    source: "T10-1, A84",
  },
  "streaks at the holes: hard agitation": {
    symptom: "streaks",
    given: { place: "at the holes" },
    without: ["harsh-agitation"],
    source: "CP",
  },
  "streaks in the same place on each frame: camera": {
    symptom: "streaks",
    given: { place: "same place", over: "inside the picture" },
    without: "camera-leak",
    source: "T10-1",
  },
  "undeveloped band: too little liquid": {
    symptom: "band",
    given: { place: "one end or edge" },
    without: "too-little-liquid",
    source: "CF2",
  },
  "dark specks that stay: undissolved grains": {
    symptom: "dark-specks",
    given: { wipes: "no" },
    without: "undissolved",
    source: "CF2",
  },
  "drop marks on the surface: drying": {
    symptom: "drop-marks",
    given: { shine: "on the surface" },
    without: "drying-drops",
    source: "T10-1",
  },
  "drop marks in the image: water before the developer": {
    symptom: "drop-marks",
    given: { shine: "in the image" },
    without: "water-drops",
    source: "WATERMARK",
  },
  "chalky deposit that wipes off: hard water": {
    symptom: "deposit",
    given: { wipes: "yes" },
    without: "hard-water",
    source: "CF6",
  },
  "net: a jump between baths": { symptom: "net", without: "bath-jump", source: "A84" },
  "lifting edges: too warm, long wash": { symptom: "frilling", without: "softened", source: "A84" },
  "half moons: forced loading": { symptom: "creases", without: "kinked", source: "LOADING" },
  "lines along the film: friction": { symptom: "scratches", without: "scratched", source: "T10-1" },
  "black smears: backing of movie film": {
    symptom: "black-residue",
    given: { marking: "another" },
    without: "black-backing",
    source: "REMJET",
  },
  "colours fade: last bath or wash": {
    symptom: "fading",
    without: "stabilizer-missed",
    source: "RW, TG",
  },
  "one roll odd: the film": { symptom: "one-odd", without: "old-film", source: "CP" },
  "all rolls since a date: bath age or thermometer": {
    symptom: "drift",
    without: ["dead-developer", "thermometer-off"],
    source: "SEARING, GOO",
  },

  // With a log that must change what stands in front.
  "blank, and the developer was past its keeping time": {
    symptom: "blank",
    given: { numbers: "missing" },
    without: "wrong-order",
    log: { acorn: { mixedOn: "2026-09-01" } },
    with: "dead-developer",
    source: "CRUNCHY, A106",
  },
  "blank, and its date is unknown, its clip test failed": {
    symptom: "blank",
    given: { numbers: "missing" },
    without: "wrong-order",
    log: {
      acorn: {
        dateAssumed: "bought that year",
        tests: [{ at: at(7200), on: "2026-11-28", by: "Ines", passed: false }],
      },
    },
    with: "dead-developer",
    source: "CRUNCHY",
  },
  "blank, and the developer was skipped": {
    symptom: "blank",
    given: { numbers: "missing" },
    without: "wrong-order",
    log: { stages: { 0: { skipped: true } } },
    with: "water-only",
    source: "FIRSTFIX",
  },
  "blank in blix, and the roll is marked black and white": {
    symptom: "blank",
    given: { numbers: "missing" },
    without: "wrong-order",
    log: { roll: { marked: "black-and-white" } },
    with: "silver-erased",
    source: "FINN",
  },
  "thin, and poured out a minute early": {
    symptom: "thin",
    given: { numbers: "faint" },
    without: "cold-developer",
    log: { off: { 0: -60 }, read: { 0: 38.2 } },
    with: "short-time",
    source: "EP2, UD",
  },
  "thin, and the developer was past both limits": {
    symptom: "thin",
    given: { numbers: "faint" },
    without: "cold-developer",
    log: { done: [12, 5], read: { 0: 38.2 } },
    with: "dead-developer",
    source: "A106",
  },
  "thin, and the thermometer was found to read high afterwards": {
    symptom: "thin",
    given: { numbers: "faint" },
    without: "cold-developer",
    log: {
      read: { 0: 38.2 },
      bench: {
        thermometers: {
          red: {
            name: "red",
            checks: [{ at: at(86400), read: celsius(38.2), reference: celsius(36.4) }],
          },
        },
      },
    },
    with: "thermometer-off",
    source: "SEARING, GOO",
  },
  "thin, and blix had got into the developer": {
    symptom: "thin",
    given: { numbers: "faint" },
    without: "cold-developer",
    log: {
      read: { 0: 38.2 },
      acorn: { suspect: { since: evening, why: "blix went into it", contaminated: true } },
    },
    with: "contaminated-developer",
    source: "A11",
  },
  "thin, and the roll wanted a push it did not get": {
    symptom: "thin",
    given: { extent: "one roll" },
    without: "under-exposed",
    log: { roll: { push: 2 } },
    with: "push-missed",
    source: "TANG",
  },
  "thin, and the time allowed for no film done before": {
    symptom: "thin",
    without: "cold-developer",
    log: {
      read: { 0: 38.2 },
      done: [7, 5],
      run: { push: undefined },
      off: { 0: 0 },
      acorn: { tests: [{ at: at(100), on: "2026-11-28", by: "Ines", passed: true }] },
    },
    with: "reuse-uncounted",
    source: "SS0514, p. 2-14 (read in excerpt)",
  },
  "thin with normal contrast, and the developer was two degrees cold": {
    symptom: "thin",
    given: { contrast: "normal" },
    without: "under-exposed",
    log: { read: { 0: 36.2 } },
    with: "cold-developer",
    source: "FAOL",
  },
  "dense, and poured out a minute late": {
    symptom: "dense",
    given: { contrast: "high" },
    without: "hot-developer",
    log: { off: { 0: 60 }, read: { 0: 38.2 } },
    with: "long-time",
    source: "EP2",
  },
  "dense, and pushed without need": {
    symptom: "dense",
    given: { contrast: "high" },
    without: "hot-developer",
    log: { run: { push: 2 }, read: { 0: 38.2 } },
    with: "push-unasked",
    source: "magazine tests quoted in a forum (read-secondary)",
  },
  "flat, and the developer was cold": {
    symptom: "flat",
    without: "weak-agitation",
    log: { read: { 0: 36 } },
    with: "cold-developer",
    source: "EP2: low agitation looks like low temperature",
  },
  "flat, and the developer had done its film": {
    symptom: "flat",
    without: "weak-agitation",
    log: { done: [11, 4], read: { 0: 38.2 } },
    with: "dead-developer",
    source: "FC",
  },
  "casts crossed, and the developer was warm": {
    symptom: "crossed",
    without: "cold-developer",
    log: { read: { 0: 40 } },
    with: "hot-developer",
    source: "FAOL",
  },
  "muddy, and the blix was cut short": {
    symptom: "muddy",
    without: "bleach-spent",
    log: { off: { 1: -200 } },
    with: "bleach-short",
    source: "TG",
  },
  "milky, and the blix had done its film": {
    symptom: "milky",
    without: "fix-short",
    log: { done: [5, 11] },
    with: "fixer-spent",
    source: "N249, TG",
  },
  "milky on one roll, and the blix was cut short by five minutes": {
    symptom: "milky",
    given: { extent: "one roll" },
    without: "film-touching",
    log: { off: { 1: -300 } },
    with: "fix-short",
    source: "N249",
  },
  "yellow stain, the fixer passed its test, and the fix was cut short": {
    symptom: "yellow-stain",
    process: "black-and-white",
    without: "fixer-spent",
    log: {
      off: { 2: -150 },
      banjo: { tests: [{ at: at(100), on: "2026-11-28", by: "Ines", passed: true }] },
    },
    with: "fix-short",
    source: "A85, N249",
  },
  "pink tint, and the fix was cut short": {
    symptom: "pink-tint",
    process: "black-and-white",
    without: "dye-left",
    log: { off: { 2: -200 } },
    with: "fix-short",
    source: "CP",
  },
  "brown stain, and the wash was left out": {
    symptom: "brown-stain",
    process: "black-and-white",
    without: "fixer-spent",
    log: { stages: { 3: { skipped: true } } },
    with: "wash-short",
    source: "MANU",
  },
  "deposit, and the wash was cut short": {
    symptom: "deposit",
    without: "hard-water",
    log: { off: { 2: -120 } },
    with: "wash-short",
    source: "MANU",
  },
  "drop marks, and the stabilizer was skipped": {
    symptom: "drop-marks",
    without: "drying-drops",
    log: { stages: { 3: { skipped: true } } },
    with: "stabilizer-missed",
    source: "T10-1: use wetting agent or stabilizer",
  },
  "drop marks, and a wet reel was noted": {
    symptom: "drop-marks",
    without: "drying-drops",
    log: { note: "second roll loaded wet" },
    with: "water-drops",
    source: "WATERMARK",
  },
  "fading, and the wash was cut short": {
    symptom: "fading",
    without: "stabilizer-missed",
    log: { off: { 2: -150 } },
    with: "wash-short",
    source: "TG: wash is important for stability",
  },
  "band, and the reel jammed": {
    symptom: "band",
    without: "too-little-liquid",
    log: { note: "it jammed and was forced" },
    with: "film-touching",
    source: "STUCK",
  },
  "streaks over the edges, and a lid that came off": {
    symptom: "streaks",
    without: "weak-agitation",
    log: { note: "the lid came off for a second" },
    with: "light-in-tank",
    source: "T10-1",
  },
  "dark specks, and grains noted": {
    symptom: "dark-specks",
    given: { shine: "on the surface" },
    without: "dust",
    log: { note: "part C was not dissolved, grains left" },
    with: "undissolved",
    source: "CF2",
  },
  "one roll odd, and it was rated for a push": {
    symptom: "one-odd",
    without: "old-film",
    log: { roll: { push: 1, marked: "C-41" } },
    with: "push-missed",
    source: "TANG",
  },
  "drift, and the thermometer proved suspect": {
    symptom: "drift",
    without: "dead-developer",
    log: {
      read: { 0: 38.2 },
      bench: {
        suspects: [
          { kind: "thermometer", name: "red", since: instant(evening), why: "2 degrees out" },
        ],
      },
    },
    with: "thermometer-off",
    source: "GOO",
  },
  "drift, and the sheet proved misread": {
    symptom: "drift",
    without: "dead-developer",
    log: {
      bench: {
        suspects: [{ kind: "sheet", name: "demo", since: instant(evening), why: "misread" }],
      },
      done: [1, 1],
      acorn: { mixedOn: "2026-11-27", used: units(1) },
    },
    with: "sheet-misread",
    source: "CP",
  },
  "net, though the baths were level": {
    symptom: "net",
    without: "bath-jump",
    log: { read: { 0: 38.2, 1: 38, 2: 37.8 } },
    with: "softened",
    source: "A84",
  },
  "fog over the edges, and the film was expired": {
    symptom: "fogged",
    given: { over: "over the edges" },
    without: "light-in-tank",
    log: { roll: { doubtful: true }, note: "expired, found film" },
    with: "old-film",
    source: "LABFAQ",
  },
  "fogged, and fixer had got into the developer": {
    symptom: "fogged",
    without: "light-in-tank",
    log: { acorn: { suspect: { since: evening, why: "blix went into it", contaminated: true } } },
    with: "contaminated-developer",
    source: "A11, MP8: fog from fixer in the developer",
  },
  "part positive, and fixer had got into the developer": {
    symptom: "part-positive",
    without: "light-in-developing",
    log: { acorn: { suspect: { since: evening, why: "fixer went into it", contaminated: true } } },
    with: "contaminated-developer",
    source: "A85: hypo in the developer",
  },
  "clear spots, and loaded wet": {
    symptom: "clear-spots",
    without: "air-bells",
    log: { note: "wet reel" },
    with: "water-drops",
    source: "WATERMARK",
  },
  "lines, and the loading was forced": {
    symptom: "scratches",
    without: "scratched",
    log: { note: "hard to load, forced" },
    with: "kinked",
    source: "LOADING",
  },
  "uneven cyan, and light got in": {
    symptom: "uneven-cast",
    without: "later-bath-foul",
    log: { note: "light got in at the lid" },
    with: "light-in-tank",
    source: "PINK",
  },
  "streaks, and the pour took a minute": {
    symptom: "streaks",
    without: "weak-agitation",
    log: { stages: { 0: { pourAt: at(-60) } } },
    with: "slow-pour",
    source: "Practical Photography, par. 233: not fully covered at once",
  },
  "cast, and the blix was cold": {
    symptom: "cast",
    given: { elsewhere: "no" },
    without: "old-film",
    log: { read: { 1: 30 } },
    with: "bleach-short",
    source: "TG: low temperature leaves silver",
  },
  "cast, and the developer was far too warm": {
    symptom: "cast",
    without: "scan",
    log: { read: { 0: 41 } },
    with: "hot-developer",
    source: "FAOL",
  },
  "muddy, and the blix was cold": {
    symptom: "muddy",
    without: "bleach-spent",
    log: { read: { 1: 30 } },
    with: "bleach-short",
    source: "TG",
  },
  "one roll odd, and it is marked E-6": {
    symptom: "one-odd",
    without: "old-film",
    log: { roll: { marked: "E-6" } },
    with: "process-mismatch",
    source: "UD: inappropriate chemistry",
  },
  "one roll odd, and it stuck on the reel": {
    symptom: "one-odd",
    without: "old-film",
    log: { note: "stuck on the reel at first" },
    with: "film-touching",
    source: "STUCK",
  },
  "dark specks, and the roll has a black backing": {
    symptom: "dark-specks",
    without: "undissolved",
    log: { roll: { marked: "C-41", blackBacked: true } },
    with: "black-backing",
    source: "REMJET",
  },
  "deposit, and the stabilizer was skipped": {
    symptom: "deposit",
    without: "hard-water",
    log: { stages: { 3: { skipped: true } } },
    with: "stabilizer-missed",
    source: "RW, T10-1",
  },
  "fading, and the blix failed its test": {
    symptom: "fading",
    without: "stabilizer-missed",
    log: { banjo: { tests: [{ at: at(100), on: "2026-11-28", by: "Ines", passed: false }] } },
    with: "fixer-spent",
    source: "TG",
  },
  "muddy, and the blix was out of date": {
    symptom: ["muddy", "cast"],
    without: "bleach-short",
    log: { banjo: { mixedOn: "2026-09-01" }, off: { 1: 5 } },
    with: "bleach-spent",
    source: "TG",
  },
  "frilling, and the developer was far too warm": {
    symptom: "frilling",
    without: "softened",
    log: { read: { 0: 43 } },
    with: "hot-developer",
    source: "A84: warm developer",
  },
};

const rows = Object.entries(cases).map(([name, one]) => ({ name, ...one }));
const logged = rows.filter((row) => row.log !== undefined);

const rankingOf = (row: Case, withLog: boolean): readonly string[] => {
  const process = row.process ?? "C-41";
  const symptoms = typeof row.symptom === "string" ? [row.symptom] : [...row.symptom];
  const bench = benchAfter(process, row.log);
  const log = withLog ? logOf(bench, Object.values(bench.runs), "run-1") : undefined;
  const evidence = log?.evidence ?? [];
  return rankCauses(faultTables, { symptoms, given: row.given ?? {} }, evidence, process).map(
    ({ cause }) => cause.id,
  );
};

test("the table has forty cases or more, and in half of them the log changes what stands in front", () => {
  expect(rows.length).toBeGreaterThanOrEqual(40);
  const changed = logged.filter((row) => rankingOf(row, false)[0] !== rankingOf(row, true)[0]);
  expect(changed.length).toBeGreaterThanOrEqual(rows.length / 2);
  expect(rows.every(({ source }) => source.length > 1)).toBe(true);
});

describe("without the log", () => {
  test.each(rows)("$name", (row) => {
    const ranking = rankingOf(row, false);
    const wanted = typeof row.without === "string" ? [row.without] : row.without;
    expect(wanted).toContain(ranking[0]);
    // Where a source names several alike, they stand together in front.
    expect(new Set(ranking.slice(0, wanted.length))).toEqual(new Set(wanted));
  });
});

describe("with the log", () => {
  test.each(logged)("$name: $with", (row) => {
    const [before, after] = [rankingOf(row, false)[0], rankingOf(row, true)[0]];
    expect(after).toBe(row.with);
    expect(after).not.toBe(before);
  });
});
