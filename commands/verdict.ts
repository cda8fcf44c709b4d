import { z } from "zod";
import { lookJson } from "../src/commands/bottle-lines.ts";
import { lookNow } from "../src/commands/bottle-looks.ts";
import { defineCommand } from "../src/commands/define-command.ts";
import { heads, verdictLine } from "../src/commands/verdict-words.ts";
import type { Bottle } from "../src/domain/chemistry/bottle.ts";
import { verdictOf } from "../src/domain/chemistry/verdict.ts";
import { ownValue } from "../src/domain/own-value.ts";
import { type Bench, liveBottles } from "../src/domain/session/bench.ts";
import { latestRun } from "../src/domain/session/find-run.ts";
import { touchedBy } from "../src/domain/session/touched.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const verdictCommand = defineCommand({
  name: "verdict",
  summary: "For each bath of the last run: back into its bottle, test it first, or retire it.",
  topic: "bottle",
  sentences: [
    "(return|keep|reuse) or (retire|discard|throw away|bin) [it|them|{bottle}|the {bottle}|all bottles]",
    "(which|what) (bottles|baths) (go|goes|can go|may go) back",
    "(does|can|may|should) {bottle} (go back|be reused|be used again|be kept)",
    "(should|shall|can|may) (i|we) (keep|reuse|use again|pour back|put back) {bottle}",
    "(should|shall|can|may) (i|we) (keep|reuse|pour back|put back|pour) [the] (baths|bottles|them) [back] [or (bin|discard|retire|throw away) [them]]",
    "(verdict|verdicts) [(for|on|about) {bottle}|on the bottles|for the bottles]",
  ],
  examples: ["return or retire", "does Acorn go back"],
  fields: z.object({ bottle: z.string().optional() }),
  changes: false,
  values: {
    verdicts:
      "one entry a bottle: bottle, bath, verdict (return, retire, test, ask), why, used_by (people whose runs it served), and its clocks",
  },
  run({ bench, now }, { bottle }) {
    const bottles =
      bottle === undefined ? lastUsed(bench) : [ownValue(bench.bottles, bottle)].filter(isThere);
    const looks = bottles.map((one) => lookNow(bench, one, now));
    if (looks.length === 0) {
      return refuse("no-such-bottle", "I know no bottles to judge. Say bottles.", {
        say: "I know no bottles to judge.",
      });
    }
    const rows = looks.map((look) => {
      const by = usersOf(bench, look.bottle);
      const shared = by.length < 2 ? "" : ` Shared by ${by.join(", ")}.`;
      return {
        line: `${verdictLine(look)}${shared}`,
        verdict: verdictOf(look).verdict,
        row: {
          bottle: look.bottle.name,
          bath: look.bottle.bath,
          ...verdictOf(look),
          used_by: [...by],
          ...lookJson(look),
        },
      };
    });
    const [first] = rows;
    const bad = rows.filter(({ verdict }) => verdict !== "return");
    const only = looks.length === 1 ? looks[0] : undefined;
    return answer({
      title:
        only === undefined || first === undefined
          ? bad.length === 0
            ? "All of them go back."
            : `${bad.length} of ${rows.length} do not simply go back.`
          : `${only.bottle.name}: ${heads[first.verdict]}`,
      lines: rows.map(({ line }) => line),
      say:
        only === undefined || first === undefined
          ? bad.length === 0
            ? "All of them go back."
            : `${bad.length} of ${rows.length} do not simply go back.`
          : `${only.bottle.name}: ${heads[first.verdict].toLowerCase()}.`,
      figures: { verdicts: { value: rows.map(({ row }) => row), origin: { kind: "own log" } } },
    });
  },
});

const isThere = (bottle: Bottle | undefined): bottle is Bottle => bottle !== undefined;

/** Bottles of the latest run that met film; where there was none, all in use. */
function lastUsed(bench: Bench): readonly Bottle[] {
  const run = latestRun(bench);
  const used =
    run === undefined
      ? []
      : touchedBy(run)
          .bottles.map((id) => ownValue(bench.bottles, id))
          .filter(isThere);
  return used.length > 0 ? used : liveBottles(bench);
}

/** Everybody who poured it, in runs at hand. */
const usersOf = (bench: Bench, { id }: Bottle): readonly string[] => [
  ...new Set(
    Object.values(bench.runs).flatMap(({ stages }) =>
      stages.flatMap(({ bottle, inBy }) => (bottle === id && inBy !== undefined ? [inBy] : [])),
    ),
  ),
];
