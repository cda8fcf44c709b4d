import type { Result } from "../domain/result.ts";
import type { Bench } from "../domain/session/bench.ts";
import { moveEnd, noted, pouringOut, weigh } from "../domain/session/drift-run.ts";
import { type ReadingTaken, type Run, type Stage, withStage } from "../domain/session/run.ts";
import type { Decision, Offer } from "../domain/temperature/compensate.ts";
import { type DriftError, explainDrift } from "../domain/temperature/drift.ts";
import { jumps, sayJump } from "../domain/temperature/jump.ts";
import { clockTime } from "../domain/timing/clock-text.ts";
import { stageClock } from "../domain/timing/stage-clock.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { plain, showDuration, showTemperature } from "../domain/units/show.ts";
import { answer, type ReplyParts, refuse, type Shown } from "../reply/reply.ts";
import { askFor, type Outcome } from "./define-command.ts";
import { driftFigures, offerLines, replanWords, sizeWords, whyWords } from "./drift-words.ts";
import { judge, readingLines } from "./reading-lines.ts";
import { withRun } from "./tanks.ts";

type Settled = Exclude<Decision, { kind: "question" }>;

/** A reading logged, with what it leads to: nothing, a moved pour-out, or a question. */
export function readingReply(
  bench: Bench,
  run: Run,
  { taken, ...reading }: ReadingTaken & { readonly taken: boolean },
  weighed: Result<Decision, DriftError> | undefined,
  now: Instant,
): Outcome {
  const stage = run.stages[reading.stage];
  if (stage === undefined) throw new Error("a reading of no stage");
  const logged: Run = { ...run, readings: [...run.readings, reading] };
  const base = readingParts(bench, run, stage, { ...reading, taken });
  if (weighed === undefined) return withRun(bench, logged, answer(base));
  if (!weighed.ok) {
    const why = explainDrift(weighed.error);
    return withRun(
      bench,
      noted(logged, now, why),
      answer({ ...base, lines: [...base.lines, why], facts: { ...base.facts, drift: "outside" } }),
    );
  }
  const decision = weighed.value;
  if (decision.kind === "question") throw new Error("a question is asked before it is logged");
  const parts = withDrift(base, decision);
  if (decision.kind === "nothing") return withRun(bench, logged, answer(parts));
  const late = pouringOut(run, reading.stage, now);
  if (decision.kind === "replan" && !late) {
    return replanned(bench, logged, reading.stage, decision, parts, now);
  }
  return stated(bench, logged, reading.stage, decision, late, parts, now);
}

type Parts = ReplyParts & Required<Pick<ReplyParts, "lines" | "facts" | "figures" | "cautions">>;

function readingParts(
  bench: Bench,
  run: Run,
  stage: Stage,
  reading: ReadingTaken & { readonly taken: boolean },
): Parts {
  const { temperature, read, thermometer, unverified } = reading;
  const figures: Record<string, Shown> = {
    temp_c: {
      value: temperature,
      origin:
        read === undefined || read === temperature
          ? { kind: "told" }
          : { kind: "computed", source: `read ${plain(read, 2)} less the thermometer's offset` },
    },
  };
  if (read !== undefined && read !== temperature) {
    figures.read_c = { value: read, origin: { kind: "told" } };
  }
  let verdict = "logged";
  let within: boolean | undefined;
  if (stage.temperature !== undefined && stage.temperatureOrigin !== undefined) {
    const off = temperature - stage.temperature;
    figures.aim_c = { value: stage.temperature, origin: stage.temperatureOrigin };
    figures.off_c = { value: off, origin: { kind: "computed", source: "reading less aim" } };
    if (stage.tolerance !== undefined) {
      figures.tolerance_c = { value: stage.tolerance, origin: stage.temperatureOrigin };
      verdict = judge(off, stage.tolerance);
      within = verdict === "in the band";
    }
  }
  return {
    title: `${run.tank}: ${stage.bath} at ${showTemperature(temperature)}, ${verdict}.`,
    lines: readingLines(bench, run, stage, reading),
    say: `${plain(temperature, 1)}, ${verdict}.`,
    figures,
    cautions: jumpCautions(bench, run, reading),
    facts: {
      tank: run.tank,
      bath: stage.bath,
      ...(thermometer === undefined ? {} : { thermometer }),
      ...(Object.keys(bench.thermometers).length === 0
        ? {}
        : { verified: unverified === undefined }),
      ...(within === undefined ? {} : { within }),
    },
  };
}

/** Film goes from what the bath before really had, where it was read, to this reading. */
function jumpCautions(bench: Bench, run: Run, reading: ReadingTaken): readonly string[] {
  const before = run.stages.findLastIndex(
    (stage, index) => index < reading.stage && stage.skipped !== true,
  );
  const stage = run.stages[before];
  const real = run.readings.findLast((one) => one.stage === before)?.temperature;
  const temperature = real ?? stage?.temperature;
  if (stage === undefined || temperature === undefined) return [];
  const here = { bath: reading.bath, temperature: reading.temperature };
  return jumps([{ bath: stage.bath, temperature }, here], bench.jumpLimit).map(sayJump);
}

const withDrift = (parts: Parts, decision: Settled): Parts => ({
  ...parts,
  figures: { ...parts.figures, ...driftFigures(decision) },
  facts: { ...parts.facts, drift: decision.kind },
});

/** The sheet allows it: the pour-out moves, it is said once and stands in the record. */
function replanned(
  bench: Bench,
  run: Run,
  index: number,
  decision: Extract<Settled, { kind: "replan" }>,
  parts: Parts,
  now: Instant,
): Outcome {
  const words = replanWords(decision);
  const how = `${words.title}; ${sizeWords(decision.size)} if it had been kept`;
  const moved = moveEnd(run, index, decision.time, how, now);
  const stage = moved.stages[index];
  const clock =
    stage?.pourAt === undefined ? undefined : stageClock(stage, stage.pourAt, moved.window);
  const lines = [
    ...parts.lines,
    ...(clock === undefined
      ? []
      : [
          `Pour out at ${clockTime(clock.pourOut, bench.zone)}, over at ${clockTime(clock.end, bench.zone)}: ${showDuration(decision.time)}.`,
        ]),
    `Kept to the plan it would be ${sizeWords(decision.size)}.`,
  ];
  return withRun(
    bench,
    moved,
    answer({
      ...parts,
      title: `${parts.title.replace(/\.$/, "")}: ${words.title}.`,
      say: `${run.tank}: ${words.say}`,
      lines,
      cautions: decision.caution === undefined ? [] : [decision.caution],
      working: [
        "Development is the rate at each temperature, added up over the time; it is complete at what the sheet's time gives at its temperature.",
        ...lines,
      ],
    }),
  );
}

/** The size of the error and what can be done; the person chooses. */
function stated(
  bench: Bench,
  run: Run,
  index: number,
  decision: Exclude<Settled, { kind: "nothing" }>,
  late: boolean,
  parts: Parts,
  now: Instant,
): Outcome {
  const stage = run.stages[index];
  const why = late || decision.kind === "replan" ? "already-out" : decision.why;
  const lines = [
    ...parts.lines,
    `Kept to the plan it is ${sizeWords(decision.size)}.`,
    whyWords[why],
  ];
  const cautions = decision.caution === undefined ? [] : [decision.caution];
  const told = { ...parts, lines, cautions };
  const before = stage?.driftAnswer;
  if (before?.band === decision.band || decision.kind === "replan" || stage === undefined) {
    const text = `drift in the ${stage?.bath ?? "bath"}: ${sizeWords(decision.size)}`;
    return withRun(bench, noted(run, now, text), answer(told));
  }
  const offers = late ? (["keep", "log"] as const) : decision.offers;
  const words: Record<Offer, string> = {
    keep: "keep",
    adjust: "adjust a little",
    log: "log as fault",
  };
  return withRun(
    bench,
    run,
    askFor(
      "temperature",
      { temperature: 0, tank: run.tank, stage: index },
      "choice",
      `${parts.title} ${offers.length === 3 ? "Keep, adjust a little, or log as fault" : "Keep, or log as fault"}?`,
      offers.map((offer) => ({ word: words[offer], value: offer })),
      {
        ...told,
        lines: [...lines, ...offerLines({ ...decision, offers }, stage.time)],
        say: `${parts.say.replace(/\.$/, "")}. ${offers.length === 3 ? "Keep, adjust a little, or log?" : "Keep or log?"}`,
      },
    ),
  );
}

/** The answer to that question: done and logged. */
export function chosenReply(
  bench: Bench,
  run: Run,
  index: number,
  choice: Offer,
  now: Instant,
): Outcome {
  const stage = run.stages[index];
  const own = run.readings.filter((reading) => reading.stage === index);
  const last = own.at(-1);
  const before = { ...run, readings: run.readings.filter((reading) => reading !== last) };
  const weighed = last === undefined ? undefined : weigh(before, index, last, now, true);
  if (stage === undefined || weighed?.ok !== true || weighed.value.kind === "question") {
    return { reply: refuse("nothing-to-choose", "There is no departure to decide about.") };
  }
  const decision = weighed.value;
  const size = sizeWords(decision.size);
  const answered = withStage(run, index, { driftAnswer: { choice, band: decision.band } });
  const facts = { tank: run.tank, bath: stage.bath, choice };
  const figures = driftFigures(decision);
  const caution =
    decision.kind === "nothing" || decision.caution === undefined ? [] : [decision.caution];
  if (choice === "adjust") {
    const adjusted = decision.kind === "state" ? decision.adjusted : undefined;
    if (adjusted === undefined || pouringOut(run, index, now)) {
      return {
        reply: refuse("too-late", `${run.tank}: it is too late to move the ${stage.bath}'s end.`, {
          facts,
        }),
      };
    }
    const how = `adjusted a little, by your word: ${showDuration(adjusted)} instead of ${showDuration(stage.time)}; ${size}`;
    const moved = moveEnd(answered, index, adjusted, how, now);
    const after = moved.stages[index] ?? stage;
    const pourOut = stageClock(after, after.pourAt ?? now, run.window).pourOut;
    return withRun(
      bench,
      moved,
      answer({
        title: `${run.tank}: ${stage.bath} ${showDuration(adjusted)} instead of ${showDuration(stage.time)}, pour out at ${clockTime(pourOut, bench.zone)}.`,
        say: `${run.tank}: pour out at ${clockTime(pourOut, bench.zone)}.`,
        lines: ["It stands in the record."],
        cautions: caution,
        facts,
        figures: { ...figures, time_s: { value: adjusted, origin: { kind: "told" } } },
      }),
    );
  }
  const fault = choice === "log";
  const text = fault
    ? `fault, ${stage.bath} off its temperature: ${size}`
    : `kept the time of ${stage.bath}, by your word: ${size}`;
  return withRun(
    bench,
    noted(answered, now, text),
    answer({
      title: `${run.tank}: ${stage.bath} stays at ${showDuration(stage.time)}${fault ? ", logged as a fault" : ""}.`,
      say: fault ? "Logged as a fault. The time stands." : "The time stands.",
      lines: [`In the record: ${size}.`],
      facts,
      figures,
    }),
  );
}
