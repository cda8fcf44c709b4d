import { openWords } from "../commands/after-run.ts";
import { readBack } from "../commands/read-back.ts";
import { bathWithBottle, calledTank, standingLine } from "../commands/run-lines.ts";
import { ownValue } from "../domain/own-value.ts";
import { isWater } from "../domain/process/sheet.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Happening } from "../domain/session/decide.ts";
import { liveRuns } from "../domain/session/find-run.ts";
import { type Retimed, retimedWords } from "../domain/session/follow-bottles.ts";
import { rehearsalMark } from "../domain/session/rehearsal.ts";
import type { Run } from "../domain/session/run.ts";
import { clockTime } from "../domain/timing/clock-text.ts";
import { type Cue, isChatter, nextStage } from "../domain/timing/cues.ts";
import { type Instant, seconds } from "../domain/units/quantity.ts";
import { plain, sayDuration, showDuration } from "../domain/units/show.ts";
import { cue, type Json, type Reply } from "../reply/reply.ts";

/** A cue told later than this, s, is told as missed. */
const LATE = 2;

/** A cue in the words of the sink: one verb, the object; its tank goes before. */
export function sayCue(
  bench: Bench,
  run: Run,
  what: Cue,
): { say: string; lines: string[] } | undefined {
  const stage = run.stages[what.stage];
  if (stage === undefined) return undefined;
  const next = nextStage(run, what.stage)?.stage;
  const nextLine = next === undefined ? [] : [`next: ${bathWithBottle(bench, next)}`];
  switch (what.kind) {
    case "pour":
      return {
        // Whoever hears the bath's name alone may take up its bottle.
        say: run.rehearsal === undefined ? `pour ${stage.bath}.` : `pour water as ${stage.bath}.`,
        lines: [
          ...(stage.bottle === undefined ? [] : [bathWithBottle(bench, stage)]),
          "Say in when it is full.",
        ],
      };
    case "agitate":
      return { say: `agitate ${spoken(what)}.`, lines: ["Tap it against bubbles first."] };
    case "rest":
      return { say: "set it down.", lines: [] };
    case "vent":
      return {
        say: "vent, face away.",
        lines: ["Cap off for a second, over the sink. Hissing? Again."],
      };
    case "beat":
      return { say: `agitate ${spoken(what)}.`, lines: [] };
    case "fetch":
      return { say: `fetch ${next?.bath ?? "what is next"}.`, lines: nextLine };
    case "pour-out":
      return {
        say: stage.sense === "exact" ? "pour out now." : "pour out.",
        lines: [
          ...(stage.sense === "at least" ? ["Time is up; a little longer does no harm."] : []),
          ...(next === undefined ? ["That was the last bath."] : nextLine),
        ],
      };
    case "ask-in":
      return {
        say: `is the ${stage.bath} in?`,
        lines: [
          "Say in the moment it is, yes if it was poured, wait if not yet.",
          `I count from the middle of the pour, ±${plain(run.window / 2, 0)} s, unless I hear.`,
        ],
      };
  }
}

const spoken = (what: Cue): string => (what.for === undefined ? "" : sayDuration(what.for));

function cueReply(bench: Bench, run: Run, what: Cue): Reply | undefined {
  if (run.quiet && isChatter(what.kind)) return undefined;
  const words = sayCue(bench, run, what);
  const stage = run.stages[what.stage];
  if (words === undefined || stage === undefined) return undefined;
  const say = `${calledTank(run)}: ${words.say}`;
  const mark = rehearsalMark(run);
  const next = nextStage(run, what.stage)?.stage;
  const facts: Record<string, Json> = { tank: run.tank, bath: stage.bath, cue: what.kind };
  if (run.rehearsal !== undefined) facts.rehearsal_speed = run.rehearsal.speed;
  if (next !== undefined && (what.kind === "fetch" || what.kind === "pour-out")) {
    facts.next = next.bath;
    const bottle = next.bottle === undefined ? undefined : ownValue(bench.bottles, next.bottle);
    if (bottle !== undefined && !isWater(next.kind)) facts.bottle = bottle.name;
  }
  const figures: Record<string, Reply["figures"][string]> = {};
  if (what.for !== undefined) {
    figures.for_s = { value: what.for, origin: stage.agitation?.origin ?? { kind: "computed" } };
  }
  const start =
    stage.inAt ?? (stage.pourAt === undefined ? undefined : stage.pourAt + (run.window / 2) * 1000);
  if (start !== undefined && what.kind !== "pour") {
    figures.into_s = {
      value: (what.at - start) / 1000,
      origin: { kind: "computed", source: "since the tank was full" },
    };
  }
  const reply = cue({
    title: say,
    say,
    lines: mark === undefined || isChatter(what.kind) ? words.lines : [...words.lines, mark],
    facts,
    figures,
  });
  return what.kind === "ask-in" ? { ...reply, kind: "question" } : reply;
}

/** Nobody was there to be asked: the count stands unconfirmed, and this is how it is confirmed. */
function countOpen(bench: Bench, run: Run): readonly string[] {
  const back = readBack(bench, ownValue(bench.runs, run.id) ?? run);
  return back === undefined ? [] : [`${back.title} Say count is right, or nothing went in.`];
}

/** "South: developer now 3 minutes 46." */
export const sayRetimed = ({ tank, bath, to, refused }: Retimed): string =>
  refused === undefined
    ? `${tank}: ${bath} now ${sayDuration(to)}.`
    : `${tank}: ${bath} would go too far. Use fresh.`;

/** Another time for a bath that waits, told by a cue. */
export const retimedReply = (one: Retimed): Reply =>
  cue({
    title: `${one.tank}: ${retimedWords(one)}`,
    say: sayRetimed(one),
    facts: { tank: one.tank, bath: one.bath, cue: "retimed" },
    figures: {
      time_s: {
        value: one.to,
        origin: { kind: "computed", source: `${one.bottle} has done ${plain(one.done, 2)} units` },
      },
    },
  });

/** What happened in its run, and what it changed in others. */
function eventReplies(bench: Bench, happening: Happening): readonly Reply[] {
  return [...eventReply(bench, happening), ...(happening.retimed ?? []).map(retimedReply)];
}

function eventReply(bench: Bench, { run, event }: Happening): readonly Reply[] {
  switch (event.kind) {
    case "cues":
      return event.cues.flatMap((what) => cueReply(bench, run, what) ?? []);
    case "assumed-in": {
      const stage = run.stages[event.stage];
      if (stage?.inAt === undefined) return [];
      const at = clockTime(stage.inAt, bench.zone);
      const half = plain(run.window / 2, 0);
      return [
        cue({
          title: `${calledTank(run)}: no "in" heard. I count ${stage.bath} from ${at}, ±${half} s.`,
          say: `${calledTank(run)}: counting ${stage.bath} from the middle of the pour.`,
          lines: ["If it went in at another moment, say in now and I will ask."],
          facts: { tank: run.tank, bath: stage.bath, cue: "assumed-in" },
          figures: {
            plus_minus_s: {
              value: run.window / 2,
              origin: { kind: "computed", source: "half the pour window" },
            },
          },
        }),
      ];
    }
    case "stage-over":
      return [];
    case "run-over": {
      const open = openWords(run);
      return [
        cue({
          title: `${calledTank(run)}: the last time is over. No clock is running.`,
          say: `${calledTank(run)}: done. No clock is running.`,
          lines: [
            'I did not hear "out", so the planned end is in the log.',
            `Say summary for the record${open === undefined ? "" : `, wrap up for ${open}`}.`,
            ...countOpen(bench, run),
            ...(rehearsalMark(run) === undefined ? [] : [String(rehearsalMark(run))]),
          ],
          facts: { tank: run.tank, cue: "run-over" },
        }),
      ];
    }
  }
}

/**
 * What came due, as replies. What is told on time comes one by one; what was missed (the program
 * was down, or the bench was dark) comes as one message that says when each was due.
 */
export function announce(
  bench: Bench,
  happenings: readonly Happening[],
  at: Instant,
): readonly Reply[] {
  const onTime = happenings.filter(({ late }) => late <= LATE);
  const missed = happenings.filter(({ late }) => late > LATE);
  const replies = onTime.flatMap((happening) => eventReplies(bench, happening));
  if (missed.length === 0) return replies;
  const lines = missed.flatMap((happening) =>
    eventReplies(bench, happening).map(
      (reply) => `${clockTime(happening.event.at, bench.zone)}  ${reply.title}`,
    ),
  );
  const first = missed[0];
  const last = missed[missed.length - 1];
  if (lines.length === 0 || first === undefined || last === undefined) return replies;
  const span = seconds(first.late);
  const now = seconds(last.late);
  const many = lines.length === 1 ? "This cue was" : `These ${lines.length} cues were`;
  const title = `${many} not told in time, the first ${showDuration(span)} ago, the last ${showDuration(now)} ago:`;
  return [
    cue({
      title,
      say: `I missed ${lines.length} cue${lines.length === 1 ? "" : "s"}. Say left for where we are.`,
      lines: [
        ...lines,
        ...changedUnheard(missed),
        ...liveRuns(bench).map((run) => `Now ${standingLine(bench, run, at)}`),
      ],
      facts: { cue: "missed", missed: lines.length },
      figures: {
        late_s: {
          value: span,
          origin: { kind: "computed", source: "the first missed cue until now" },
        },
      },
    }),
    ...replies,
  ];
}

/** A bath that was to be left while nobody was told may still be on the film. */
function changedUnheard(missed: readonly Happening[]): readonly string[] {
  const left = missed.flatMap(({ run, event }) =>
    event.kind === "stage-over" ? [run.stages[event.stage]?.bath ?? ""] : [],
  );
  const last = left.at(-1);
  return last === undefined
    ? []
    : [`If the film is still in the ${last}, pour it out and say out.`];
}
