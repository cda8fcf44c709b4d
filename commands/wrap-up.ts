import { z } from "zod";
import { afterQuestion, thenAsk } from "../src/commands/after-run.ts";
import { askFor, defineCommand, type Outcome } from "../src/commands/define-command.ts";
import { readOn } from "../src/commands/read-thermometer.ts";
import { withRun } from "../src/commands/tanks.ts";
import { ownValue } from "../src/domain/own-value.ts";
import {
  anyTankWet,
  developerOf,
  type EndOf,
  openQuestion,
  unasked,
  unreadEnds,
} from "../src/domain/record/open-questions.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { latestRun, liveRuns, runOfTank } from "../src/domain/session/find-run.ts";
import type { ReadingTaken, Run } from "../src/domain/session/run.ts";
import {
  bathTemperature,
  explainBathTemperature,
  FAR,
} from "../src/domain/temperature/bath-temperature.ts";
import { celsius, type Instant, later } from "../src/domain/units/quantity.ts";
import { plain, showTemperature } from "../src/domain/units/show.ts";
import { answer, question, type Reply, refuse } from "../src/reply/reply.ts";

const degrees = z.number();
const SKIP = [{ word: "skip", value: { skip: true } }];

const fields = z.object({
  tank: z.string().optional(),
  run: z.string().optional(),
  /** It went as it always goes. */
  same: z.literal(true).optional(),
  /** What the developer read at the ends of its time, °C. */
  ends: z
    .object({
      start: degrees.optional(),
      end: degrees.optional(),
      said: z.array(degrees).max(2).optional(),
      skip: z.boolean().optional(),
    })
    .optional(),
  thermometer: z.string().max(30, "Say which thermometer in a word, like red.").optional(),
  different: z
    .string()
    .max(500, "That has more than 500 characters. Say the rest with note.")
    .optional(),
});
type Ends = NonNullable<z.output<typeof fields>["ends"]>;

export const wrapUpCommand = defineCommand({
  name: "wrap up",
  summary: "The two questions after a run: developer temperature, and what was different.",
  topic: "run",
  sentences: [
    "(wrap up|wrap it up|end questions|questions|ask me [about it|about the run]) [(of|for|about)] [[the] tank] [{tank}]",
    "[the] developer (was|read) {ends} [(on|by|with) [the] {thermometer} [thermometer]] [in tank {tank}]",
    "{same} different [today|this time] [(with|in|at)] [tank] [{tank}]",
    "different (today|this time) [was] [that] {different}",
  ],
  slots: { ends: "bathEnds", same: "nothing", different: "text", thermometer: "word" },
  examples: [
    "wrap up",
    "nothing different today",
    "developer was 38.1 at the start and 37.8 at the end",
  ],
  fields,
  changes: true,
  values: {
    run: "id of the run",
    tank: "its name",
    start_c: "developer at its start, corrected, °C",
    end_c: "developer at its end, corrected, °C",
    different: "what was different, or null for nothing; missing while it is not answered",
  },
  run({ bench, now }, said) {
    const run = runAsked(bench, said.run, said.tank);
    if (run === undefined) {
      return refuse("no-run", "No run is over that I could ask about.", {
        say: "No run is over yet.",
      });
    }
    if (said.ends !== undefined) return temperatures(bench, run, now, said.ends, said.thermometer);
    if (said.same === true) return different(bench, run, "no");
    if (said.different !== undefined) return different(bench, run, said.different);
    if (anyTankWet(bench, now)) {
      return answer({
        title: "Film is wet: I ask when no tank is. No hurry.",
        say: "Film is wet. I ask afterwards.",
        facts: { run: run.id, tank: run.tank },
      });
    }
    const asked = afterQuestion(run, unasked(bench, run));
    if (asked === undefined) {
      return answer({
        title: `${run.tank}: nothing is left to ask. Say summary for the record.`,
        say: "Nothing is left to ask.",
        facts: { run: run.id, tank: run.tank },
      });
    }
    return question(asked.ask, `${run.tank}: ${asked.title}`, {
      say: asked.say,
      facts: { run: run.id, tank: run.tank },
    });
  },
});

/** The run that was named; else the last one that is over and still has a question, or the last. */
function runAsked(bench: Bench, id: string | undefined, tank: string | undefined): Run | undefined {
  if (id !== undefined) return ownValue(bench.runs, id);
  if (tank !== undefined) {
    const named = runOfTank(bench, tank);
    return named?.endedAt === undefined ? undefined : named;
  }
  const over = Object.values(bench.runs)
    .filter((run) => run.endedAt !== undefined)
    .toSorted((one, other) => (other.endedAt ?? 0) - (one.endedAt ?? 0));
  const open = over.find((run) => openQuestion(run) !== undefined);
  return open ?? (liveRuns(bench).length > 0 ? over[0] : latestRun(bench));
}

function temperatures(
  bench: Bench,
  run: Run,
  now: Instant,
  ends: Ends,
  thermometer: string | undefined,
): Reply | Outcome {
  const index = developerOf(run);
  const stage = index === undefined ? undefined : run.stages[index];
  if (index === undefined || stage?.inAt === undefined || run.endedAt === undefined) {
    return refuse(
      "no-developer",
      `${run.tank} has no developer that is over. Say temperature 38.1.`,
      {
        say: "No developer is over there.",
      },
    );
  }
  if (ends.skip === true) {
    const skipped = { ...run, after: { ...run.after, temperatures: "declined" as const } };
    const reply = answer({
      title: "Left open.",
      say: "Left open.",
      facts: { run: run.id, tank: run.tank },
    });
    return withRun(bench, skipped, thenAsk(bench, skipped, now, reply));
  }
  const named = byEnd(ends, unreadEnds(run));
  const outAt = stage.outAt ?? later(stage.inAt, stage.time);
  const readings: ReadingTaken[] = [];
  for (const [end, value] of named) {
    const believed = bathTemperature(value, "C", stage.temperature);
    if (!believed.ok) {
      const title = explainBathTemperature(believed.error);
      return askFor("wrap up", { run: run.id }, "ends", title, SKIP);
    }
    const off = stage.temperature === undefined ? 0 : Math.abs(value - stage.temperature);
    if (off > FAR) {
      const title = `I read ${showTemperature(celsius(value))} at the ${end}, ${plain(off, 0)} °C from the aim. Say it again with its unit, or skip.`;
      return askFor("wrap up", { run: run.id }, "ends", title, SKIP);
    }
    const at = end === "start" ? stage.inAt : outAt;
    const { corrected, ...kept } = readOn(bench, thermometer, celsius(value), at);
    readings.push({
      at,
      stage: index,
      bath: stage.bath,
      temperature: corrected,
      read: celsius(value),
      asked: end,
      ...(kept.thermometer === undefined ? {} : { thermometer: kept.thermometer }),
      ...(kept.unverified === undefined ? {} : { unverified: kept.unverified }),
    });
  }
  const logged: Run = {
    ...run,
    readings: [
      ...run.readings.filter(({ asked }) => !named.has(asked ?? "start") || asked === undefined),
      ...readings,
    ],
    after: { ...run.after, temperatures: "told" },
  };
  const words = readings.map(
    ({ asked, temperature }) => `${plain(temperature, 1)} °C at the ${asked}`,
  );
  const figures: Reply["figures"] = Object.fromEntries(
    readings.map(({ asked, temperature }) => [
      `${asked}_c`,
      { value: temperature, origin: { kind: "told" as const } },
    ]),
  );
  const reply = answer({
    title: `Logged for ${run.tank}: ${stage.bath} ${words.join(", ")}.`,
    say: "Logged.",
    lines: outside(stage.temperature, stage.tolerance, readings),
    figures,
    facts: { run: run.id, tank: run.tank },
  });
  return withRun(bench, logged, thenAsk(bench, logged, now, reply));
}

/** Values without a word for their end go to the ends that are open, in order of time. */
function byEnd({ start, end, said = [] }: Ends, open: readonly EndOf[]): Map<EndOf, number> {
  const named = new Map<EndOf, number>();
  if (start !== undefined) named.set("start", start);
  if (end !== undefined) named.set("end", end);
  const order: readonly EndOf[] = said.length === 2 || open.length === 0 ? ["start", "end"] : open;
  const free = order.filter((one) => !named.has(one));
  said.forEach((value, index) => {
    const one = free[index];
    if (one !== undefined) named.set(one, value);
  });
  return named;
}

function outside(
  aim: number | undefined,
  tolerance: number | undefined,
  readings: readonly ReadingTaken[],
): readonly string[] {
  if (aim === undefined || tolerance === undefined) return [];
  const off = readings.filter(({ temperature }) => Math.abs(temperature - aim) > tolerance + 1e-9);
  return off.length === 0
    ? []
    : [
        `Outside the band of ${plain(aim, 1)} ±${plain(tolerance, 2)} °C at the ${off.map(({ asked }) => asked).join(" and the ")}.`,
      ];
}

const nothing =
  /^(no|nope|nah|none|nothing( at all| different| special)?|skip|not really|(all )?(as|like) (usual|always)|same as (usual|always))[.!]?$/i;

function different(bench: Bench, run: Run, said: string): Outcome | Reply {
  if (/^(yes|yeah|yep)[.!]?$/i.test(said.trim())) {
    return askFor("wrap up", { run: run.id }, "different", "What was it? A few words.");
  }
  const words = nothing.test(said.trim()) ? "" : said.trim();
  const before = run.after?.different ?? "";
  if (before !== "" && words === "") {
    return answer({
      title: `${run.tank}: the record says already what was different: ${before}`,
      say: "The record says already what was different.",
      facts: { run: run.id, tank: run.tank, different: before },
    });
  }
  const text = before === "" ? words : `${before}; ${words}`;
  const gaveUp = run.ending === "stopped";
  const about = aboutWhich(run, unasked(bench, run), text);
  const runs = { ...bench.runs };
  for (const one of about) {
    runs[one.id] = {
      ...one,
      after: { ...one.after, different: text },
      ...(one.ending === "stopped" && text !== "" ? { stoppedBecause: text } : {}),
    };
  }
  const tanks = [...new Set(about.map(({ tank }) => tank))].join(" and ");
  return {
    bench: { ...bench, runs },
    reply: answer({
      title:
        text !== ""
          ? `Noted with ${tanks}: ${text}`
          : gaveUp
            ? `${tanks}: left without a reason.`
            : `${tanks}: nothing different, and the record says so.`,
      lines: gaveUp
        ? ["Undo takes this back."]
        : ["Once it is dry, say first look. Undo takes this back."],
      say:
        text !== ""
          ? "Noted."
          : gaveUp
            ? "Left without a reason."
            : "Nothing different. The record says so.",
      facts: { run: run.id, tank: run.tank, different: text === "" ? null : text },
    }),
  };
}

/** A tank that is named in the words is what they are about; else all that were asked about. */
function aboutWhich(run: Run, others: readonly Run[], text: string): readonly Run[] {
  const all = [run, ...others];
  const words = new Set(text.toLowerCase().split(/[^\p{L}\p{N}]+/u));
  const named = all.filter(({ tank }) => words.has(tank.toLowerCase()));
  return named.length === 0 ? all : named;
}
