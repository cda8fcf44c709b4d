import { z } from "zod";
import { bottleMeant } from "../src/commands/bottle-meant.ts";
import { bottleOfBath } from "../src/commands/bottle-of-bath.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { isUnnamed, LOOK_AT_THEM, recallFor, showRecall } from "../src/commands/recall-list.ts";
import { sheetById } from "../src/commands/sheets.ts";
import { failedTest } from "../src/domain/chemistry/look.ts";
import { ownValue } from "../src/domain/own-value.ts";
import { type Bench, liveBottles } from "../src/domain/session/bench.ts";
import { markSuspect } from "../src/domain/session/suspicion.ts";
import { dayStart } from "../src/domain/timing/day-bounds.ts";
import { type Instant, later } from "../src/domain/units/quantity.ts";
import { answer, oneBreath, type Reply, refuse } from "../src/reply/reply.ts";

/** When it happened, where somebody says so. */
const WHEN = "[by (mistake|accident)] [{on}|{ago}]";

export const suspectCommand = defineCommand({
  name: "suspect",
  summary: "Mark a bottle, sheet or thermometer as bad: I list what it touched.",
  topic: "bottle",
  sentences: [
    "[i think|i believe] {bottle} (is|looks|smells|seems|was|may be|might be|could be|has gone|went) (suspect|bad|off|dead|ruined|wrong) [(because|since|as) [of] {reason}]",
    "[i think|i believe] ({bottle}|[the] {bath}) (is|got|was|has been|has got|may be|might be|could be|may have been|might have been) {foul} [(by|with|from) ({solution}|{other})]",
    "[i think|i believe] ({bottle}|[the] {bath}) (is|was|got|has been) {foul} (because|since|as) [of] {reason}",
    "{bottle} {foul} [(by|with|from) ({solution}|{other})]",
    "[i|we|someone] [have] {foul} ({bottle}|[the] {bath}) [because {reason}]",
    "suspect {bottle} [because {reason}]",
    "(something|anything) (is|went|seems) (wrong|off|odd|strange) with ({bottle}|[the] {bath}) [because {reason}]",
    "[i] do not trust {bottle}",
    "there is [some] ({solution}|{other}) in ({bottle}|[the] {bath})",
    "({bottle}|[the] {bath}) has [got] [some] ({solution}|{other}) in (it|there)",
    `({solution}|{other}) (went|got|ran|spilled|dripped|leaked|was poured) [back] (in|into) ({bottle}|[the] {bath} [bottle]) ${WHEN}`,
    `[oops] [i|we|someone] [have] [accidentally] (poured|put|spilled|dripped|tipped) [some|a bit of] [the] ({solution}|{other}) (in|into) ({bottle}|[the] {bath} [bottle]) ${WHEN}`,
    "[i|we|someone] [have] (poured|put) [some] [the] ({solution}|{other}) back (in|into) [the] {bath} [bottle]",
    "[oops] {other} (into|in) {bottle}",
    "[oops] {solution} into ({bottle}|[the] {bath} [bottle])",
    "[i|we|someone] [have] [accidentally] (poured|put) [the] {other} back (in|into) {bottle}",
    "[the] {thermometer} thermometer (is|was) (off|wrong|bad|suspect|out) [by {reason}]",
    "[the] sheet {sheet} (is|was) (wrong|suspect|bad|misread)",
    "[the] {sheet} sheet (is|was) (wrong|suspect|bad|misread)",
  ],
  slots: { on: "pastDate", reason: "text", thermometer: "word", other: "bottle" },
  examples: ["Acorn is suspect", "blix went into Acorn", "the red thermometer was off"],
  fields: z.object({
    bottle: z.string().optional(),
    sheet: z.string().optional(),
    thermometer: z.string().max(30, "Say which thermometer in a word, like red.").optional(),
    solution: z.string().optional(),
    /** What the bottle holds, where it was said instead of its name. */
    bath: z.string().optional(),
    /** The bottle whose solution got in. */
    other: z.string().optional(),
    /** Contaminated, in so many words. */
    foul: z.literal(true).optional(),
    /** When it got in: ISO date, or how long ago, s. */
    on: z.string().optional(),
    ago: z.number().nonnegative().optional(),
    reason: z.string().max(200, "Say in a few words what is wrong.").optional(),
  }),
  changes: true,
  values: {
    what: "bottle, sheet or thermometer",
    name: "its name",
    why: "why it is suspect",
    also: "bottles that are suspect with it, since it was poured into them",
    runs: "one entry a run it touched: run, tank, title, at (ISO), film",
    rolls: "rolls it touched, by name",
    units: "film it touched, units of 80 sq in",
  },
  run({ bench, now }, wanted) {
    const { bottle: named, sheet, thermometer, bath, reason, other: from, foul } = wanted;
    const other = from === undefined ? undefined : ownValue(bench.bottles, from);
    const solution = wanted.solution ?? other?.bath;
    if (thermometer !== undefined && isUnnamed(thermometer)) {
      const title = "Which thermometer? Say a word for it, like red.";
      return askFor("suspect", { reason }, "thermometer", title);
    }
    if (named === undefined && bath !== undefined && liveBottles(bench).length === 0) {
      return noBottles(solution, bath);
    }
    const found =
      bath === undefined
        ? undefined
        : bottleOfBath(bench, { bottle: named, solution: bath }, "suspect", "Into which bottle?", {
            ...(other === undefined ? { solution } : { other: other.id }),
            reason,
            foul,
            on: wanted.on,
            ago: wanted.ago,
          });
    if (found !== undefined && "reply" in found) return found.reply;
    const id = found?.bottle.id ?? named;
    const what =
      id !== undefined
        ? ({ kind: "bottle", id } as const)
        : sheet !== undefined
          ? ({ kind: "sheet", id: sheet } as const)
          : thermometer !== undefined
            ? ({ kind: "thermometer", id: thermometer.toLowerCase() } as const)
            : undefined;
    if (what === undefined) return askFor("suspect", {}, "bottle", "Which bottle is suspect?");
    let name = what.kind === "thermometer" ? `the ${what.id} thermometer` : what.id;
    if (what.kind === "sheet") name = `sheet ${sheetById(bench, what.id)?.name ?? what.id}`;
    if (what.kind === "bottle") {
      const meant = bottleMeant(bench, what.id);
      if ("reply" in meant) return meant.reply;
      name = meant.bottle.name;
      if (other?.id === meant.bottle.id) {
        return refuse("same-bottle", `That is ${name} into ${name}. Name the other bottle.`);
      }
      const doubtful = other?.suspect !== undefined || (other !== undefined && failedTest(other));
      if (solution !== undefined && meant.bottle.bath === solution && !doubtful) {
        return refuse(
          "same-bath",
          `${name} holds ${solution}, so ${solution} does it no harm. Poured back? Say back in ${name}.`,
          { say: `${name} holds ${solution} already. No harm done.`, facts: { name } },
        );
      }
    }
    const got = other === undefined ? solution : `${other.bath} of ${other.name}`;
    const said = reason ?? (foul === true ? "contaminated, you said" : "you said so");
    const why = got === undefined ? said : `${got} went into it`;
    const contaminated = foul === true || got !== undefined;
    const spoilt = got === undefined ? undefined : happenedAt(bench, now, wanted);
    const marked = markSuspect(bench, what, why, now, { contaminated, from: spoilt });
    const recall = recallFor(marked.bench, what);
    const shown = showRecall(marked.bench, recall);
    return {
      bench: marked.bench,
      reply: answer({
        title: `${name} is SUSPECT: ${why}.`,
        lines: [
          ...(what.kind === "bottle"
            ? [
                contaminated
                  ? "No film in it: a clip test does not prove it clean. Keep it apart, pour it into no other bottle."
                  : "No film in it before a clip test. Keep it apart, and pour it into no other bottle.",
              ]
            : what.kind === "thermometer"
              ? ["Every reading it gave may be wrong. Check it near 38 °C against another."]
              : ["Read its lines against the paper before you use it again."]),
          ...(marked.also.length === 0 ? [] : [`Suspect with it: ${marked.also.join(", ")}.`]),
          ...shown.lines,
          ...(recall.runs.length === 0 ? [] : [LOOK_AT_THEM]),
        ],
        say: oneBreath(`${name} is suspect. ${shown.say}`),
        figures: shown.figures,
        facts: { what: what.kind, name, why, also: marked.also, ...shown.facts },
      }),
    };
  },
});

/** The moment something got in: as it was said, or just now; of a day its beginning, to be safe. */
function happenedAt(
  { zone }: Bench,
  now: Instant,
  { on, ago }: { readonly on?: string | undefined; readonly ago?: number | undefined },
): Instant {
  if (ago !== undefined) return later(now, -ago);
  return on === undefined ? now : dayStart(on, zone);
}

/** Nothing is on the shelf to be marked: what to do with the real bottle is told all the same. */
function noBottles(solution: string | undefined, bath: string): Reply {
  return refuse(
    "no-bottles",
    `I know no bottle of ${bath} to mark. Use none of it for film${solution === undefined ? "" : `: ${solution} is in it`}.`,
    {
      say: "I know no such bottle. Keep it apart, no film in it.",
      lines: [
        "Cross its label, set it apart, pour it into no other bottle; a clip test does not prove it clean.",
        `Say bottle ${bath} 1 litre to have it on the shelf, then tell me again.`,
      ],
    },
  );
}
