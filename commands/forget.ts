import { z } from "zod";
import {
  askFor,
  defineCommand,
  type Handling,
  type Outcome,
} from "../src/commands/define-command.ts";
import { countRuns } from "../src/commands/search-runs.ts";
import { benchHolds, holdsWords, runsGoOn } from "../src/commands/work-words.ts";
import { allRuns } from "../src/domain/session/past.ts";
import { peopleOf } from "../src/domain/session/people-of.ts";
import { answer, type Reply, refuse } from "../src/reply/reply.ts";

const GOES =
  "All archives in exports, all pictures and written summaries go too, and what undo keeps.";

export const forgetCommand = defineCommand({
  name: "forget",
  summary: "Delete all that is kept of a person, or the whole bench, for good.",
  topic: "bench",
  sentences: [
    "(forget|delete|erase|remove) (everything|all) [you know] about (me|myself)",
    "(forget|delete|erase) (me|myself|my data|all my data)",
    "(forget|delete|erase|remove) (everything|all) [you know] about {person}",
    "(forget|delete|erase|remove) (member|person) {person}",
    "forget {person}",
    "(forget|delete|erase|wipe) {whole}",
  ],
  slots: { typed: "text", whole: "wholeBench" },
  examples: ["forget everything about Dora", "forget the whole bench"],
  fields: z.object({
    person: z.string().optional(),
    whole: z.literal(true).optional(),
    typed: z.string().optional(),
  }),
  ownerFields: ["whole"],
  selfFields: ["person"],
  changes: false,
  reads: "past-runs",
  values: {
    confirm: "the words to type",
    person: "who; missing for the whole bench",
    runs: "in how many runs they had a hand, or how many there are",
    bottles: "how many they mixed, or how many there are",
    notes: "notes of theirs",
    reminders: "reminders of theirs, or of the bench",
    sheets: "sheets of the bench",
    rolls: "rolls of the bench",
    pictures: "pictures and written summaries that went",
    exports: "archives that went",
    lost: "damaged records that went because they could not be looked through",
    left: "true where the disk would not let go of archives, pictures or summaries",
  },
  run(at, { person, whole, typed }) {
    const busy = runsGoOn(at.bench);
    if (busy !== undefined) return busy;
    if (whole === true) return all(at, typed);
    return one(at, person?.trim() ?? at.who, typed);
  },
});

function all({ bench }: Handling, typed: string | undefined): Reply | Outcome {
  const words = "forget this whole bench for good";
  if (typed !== undefined) return typedReply(typed, words, { kind: "forget-bench" });
  const { pictures: _, ...holds } = benchHolds(bench);
  return askFor(
    "forget",
    { whole: true },
    "typed",
    `Forget this whole bench? Type: ${words}`,
    undefined,
    {
      lines: [
        `It holds ${holdsWords(benchHolds(bench))}. All of it goes, with every setting, note and name.`,
        GOES,
        "It cannot be taken back. Anything else you say leaves it as it is.",
      ],
      say: "Type the words to forget this whole bench.",
      facts: { confirm: words, ...holds },
    },
  );
}

function one(
  { bench, past, who }: Handling,
  person: string,
  typed: string | undefined,
): Reply | Outcome {
  const words = `forget ${person.toLowerCase()} for good`;
  if (typed !== undefined) return typedReply(typed, words, { kind: "forget-member", who: person });
  const own = (name: string | undefined): boolean => name?.toLowerCase() === person.toLowerCase();
  const runs = allRuns(bench, past).filter((run) => peopleOf(run).some(own)).length;
  const bottles = Object.values(bench.bottles).filter(({ by }) => own(by)).length;
  const inRuns = allRuns(bench, past).flatMap((run) => run.notes);
  const notes = [...bench.notes, ...inRuns].filter(({ by }) => own(by)).length;
  const reminders = Object.values(bench.reminders).filter(({ owner }) => own(owner)).length;
  const rolls = Object.values(bench.rolls).filter(({ by }) => own(by)).length;
  if (!own(who) && runs + bottles + notes + reminders + rolls === 0) {
    return refuse("no-such-person", `I keep nothing of anybody called ${person}.`, {
      facts: { person },
    });
  }
  const what = [
    `a hand in ${countRuns(runs)}`,
    `${bottles} bottle${bottles === 1 ? "" : "s"} mixed`,
    `${rolls} roll${rolls === 1 ? "" : "s"} added`,
  ];
  return askFor("forget", { person }, "typed", `Forget ${person}? Type: ${words}`, undefined, {
    lines: [
      `Kept: ${what.join(", ")}. The work stays in the record, as done by someone.`,
      `Gone: ${notes} note${notes === 1 ? "" : "s"}, ${reminders} reminder${reminders === 1 ? "" : "s"}, all that was said, and the name wherever it stands, in labels and notes of others too.`,
      GOES,
      "It cannot be taken back. Anything else you say leaves it as it is.",
    ],
    say: `Type the words to forget ${person}.`.split(" ").slice(0, 12).join(" "),
    facts: { confirm: words, person, runs, bottles, notes, reminders, rolls },
  });
}

function typedReply(
  typed: string,
  words: string,
  work: NonNullable<Outcome["work"]>,
): Reply | Outcome {
  const said = typed
    .trim()
    .toLowerCase()
    .replace(/["'.!]/g, "")
    .replace(/\s+/g, " ");
  if (said !== words.replace(/["'.!]/g, "")) {
    return answer({ title: "Nothing was forgotten.", say: "Nothing was forgotten." });
  }
  return { work, reply: answer({ title: "Forgetting.", say: "Forgetting." }) };
}
