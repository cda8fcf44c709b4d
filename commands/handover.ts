import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { standingLines, standingOf, takenLines } from "../src/commands/handover-lines.ts";
import { withHandover } from "../src/domain/session/handover.ts";
import { clockMinute, dateOf, showDate } from "../src/domain/timing/clock-text.ts";
import { answer, oneBreath, refuse } from "../src/reply/reply.ts";

const values = {
  from: "who hands over",
  to: "who takes over",
  wet: "what is in a bath or about to be, one line a tank",
  open: "bottles whose solution is out, and what is being mixed",
  next: "what is to be done next",
  doubtful: "what is not to be relied on",
};

export const handoverCommand = defineCommand({
  name: "handover",
  summary: "The end of a shift: what is wet, open, next and doubtful, kept for who takes over.",
  topic: "bench",
  sentences: [
    "(handover|hand over|handing over) [to {person}]",
    "(i am|we are) handing over [to {person}]",
    "{person} takes over",
  ],
  examples: ["handover to Dora"],
  fields: z.object({
    person: z.string("Handover to whom?").max(60, "A name of 60 letters at most."),
  }),
  changes: true,
  values,
  run({ bench, now, who }, { person }) {
    const standing = standingOf(bench, now);
    const taken = takenLines(bench, now);
    const lines = [
      ...standingLines(standing),
      ...(taken.length === 0 ? [] : [`In use: ${taken.join("; ")}`]),
    ];
    const [wet] = standing.wet;
    const handover = { at: now, from: who, to: person, lines };
    return {
      bench: withHandover(bench, handover),
      reply: answer({
        title: `Handover, ${who} to ${person}`,
        lines,
        say: oneBreath(
          wet === undefined ? `${person} has it. Nothing is wet.` : `${person} has it. ${wet}`,
        ),
        facts: {
          from: who,
          to: person,
          wet: [...standing.wet],
          open: [...standing.open],
          next: [...standing.next],
          doubtful: [...standing.doubtful],
        },
      }),
    };
  },
});

export const lastHandoverCommand = defineCommand({
  name: "last handover",
  summary: "What was handed over last, by whom and to whom.",
  topic: "bench",
  sentences: [
    "[show|read] [me] [the] (last|latest|previous) handover",
    "what was handed over",
    "(who has|whose is) [the] shift",
  ],
  examples: ["last handover"],
  fields: z.object({}),
  changes: false,
  aside: true,
  values: { from: values.from, to: values.to, at: "when, ISO" },
  run({ bench }) {
    const last = bench.handovers?.at(-1);
    if (last === undefined) return refuse("no-handover", "Nothing was handed over yet.");
    const { at, from, to, lines } = last;
    return answer({
      title: `${from} handed over to ${to}, ${showDate(dateOf(at, bench.zone))}, ${clockMinute(at, bench.zone)}`,
      lines,
      say: oneBreath(`${from} handed over to ${to} at ${clockMinute(at, bench.zone)}.`),
      facts: { from, to, at: Temporal.Instant.fromEpochMilliseconds(Math.floor(at)).toString() },
    });
  },
});
