import { z } from "zod";
import {
  askFor,
  confirm,
  defineCommand,
  type Handling,
  type Outcome,
} from "../src/commands/define-command.ts";
import type { ExportFile, ExportHolds } from "../src/commands/work.ts";
import { benchHolds, holdsWords, isEmpty, runsGoOn } from "../src/commands/work-words.ts";
import { clockMinute, dateOf, showDate } from "../src/domain/timing/clock-text.ts";
import { instant } from "../src/domain/units/quantity.ts";
import { answer, type Reply, refuse } from "../src/reply/reply.ts";

/** So many archives are offered by name. */
const OFFERED = 5;

export const restoreCommand = defineCommand({
  name: "restore",
  summary: "Take everything from an exported file: what is replaced is named first.",
  topic: "bench",
  sentences: [
    "(restore|import|load|take back) [everything|the bench|this bench|the backup|backup|export] [from] [exports] {file}",
    "(restore|import|load|take back) [everything|the bench|this bench|the backup|a backup|backup|the export|an export]",
  ],
  slots: { file: "archive", sure: "yes" },
  examples: ["restore everything", "restore from home-2026-11-28-2130.zip"],
  fields: z.object({ file: z.string().optional(), sure: z.boolean().optional() }),
  who: "owner",
  changes: false,
  reads: "exports",
  values: {
    file: "its name from the data folder on",
    made: "when it was made, ISO",
    archives: "names of those there are",
    runs: "how many are in it",
    bottles: "the same",
    sheets: "the same",
    rolls: "the same",
    reminders: "the same",
    pictures: "the same",
    replaces: "what is here now and would go: runs, bottles, sheets, rolls, reminders",
  },
  run(at, { file, sure }) {
    const busy = runsGoOn(at.bench);
    if (busy !== undefined) return busy;
    if (sure === false) {
      return answer({ title: "Everything stays as it is.", say: "Everything stays as it is." });
    }
    // Where there is only one, nobody needs to spell its name.
    const [only, second] = at.exports;
    const sole = second === undefined ? only?.name : undefined;
    const meant = file ?? sole;
    if (meant === undefined) return offer(at.exports);
    const exact = at.exports.find(({ name }) => bare(name) === bare(meant));
    // Said aloud or typed in haste, a name lacks its brackets and spaces.
    const alike = at.exports.filter(({ name }) => letters(name) === letters(meant));
    const found = exact ?? (alike.length === 1 ? alike[0] : undefined);
    if (found === undefined) return noSuch(alike.length > 1 ? alike : at.exports, bare(meant));
    const { holds } = found;
    if ("wrong" in holds)
      return refuse("bad-archive", holds.wrong, { facts: { file: found.name } });
    return sure === true || isEmpty(at.bench) ? take(found.name) : ask(at, found, holds);
  },
});

export const exportsCommand = defineCommand({
  name: "exports",
  summary: "The archives in the folder exports and what is in them.",
  topic: "bench",
  sentences: ["[show|list|what|which] [me] [the] (exports|backups|archives) [are there|do i have]"],
  examples: ["exports"],
  fields: z.object({}),
  changes: false,
  aside: true,
  reads: "exports",
  values: { archives: "names of those there are, the newest first" },
  run: ({ exports }) =>
    answer({
      title:
        exports.length === 0
          ? "The folder exports is empty."
          : `${exports.length} archive${exports.length === 1 ? "" : "s"} in the folder exports`,
      lines: exports.map(line),
      say:
        exports.length === 0
          ? "There is none."
          : `There ${exports.length === 1 ? "is one" : `are ${exports.length}`}.`,
      facts: { archives: exports.map(({ name }) => name) },
    }),
});

/** The name alone, however it was given: "exports/home.zip", "home". */
const bare = (file: string): string =>
  file
    .normalize("NFKC")
    .toLowerCase()
    .replace(/^exports\//, "")
    .replace(/\.zip$/, "");

/** As much of a name as can be said. */
const letters = (file: string): string =>
  bare(file)
    .replace(/\bzip$/, "")
    .replace(/[^\p{L}\p{N}]+/gu, "");

const take = (file: string): Outcome => ({
  work: { kind: "restore", file },
  reply: answer({ title: `Restoring from ${file}.`, say: "I am reading it back." }),
});

function ask({ bench }: Handling, { name }: ExportFile, holds: ExportHolds): Reply {
  const { made, counts } = holds;
  const at = instant(Temporal.Instant.from(made).epochMilliseconds);
  const here = benchHolds(bench);
  const { pictures: _, ...replaces } = here;
  const title = `Replace this bench by ${name}? Here and then gone: ${holdsWords(here)}.`;
  return confirm("restore", { file: name }, "sure", title, {
    lines: [
      `Made ${showDate(dateOf(at, bench.zone))}, ${clockMinute(at, bench.zone)}; it holds ${holdsWords(counts)}.`,
      "Nothing of this bench is kept, nor its pictures; undo does not bring it back. Archives in exports and summaries in records stay. Say export everything first if in doubt.",
    ],
    say: "Replace everything here by that file?",
    facts: { file: name, made, ...counts, replaces },
  });
}

function offer(exports: readonly ExportFile[]): Reply {
  const names = exports.map(({ name }) => name);
  const [only] = names;
  if (only === undefined) {
    return refuse("no-archive", "The folder exports has no archive in it. Put the file there.", {
      say: "There is no archive in the folder exports.",
    });
  }
  const options = names.slice(0, OFFERED).map((name) => ({ word: name, value: name }));
  return askFor("restore", {}, "file", "From which archive? The newest first:", options, {
    lines: exports.slice(0, OFFERED).map(line),
    say: names.length === 1 ? "From the one there is?" : "From which archive?",
    facts: { archives: names },
  });
}

const line = ({ name, holds }: ExportFile): string =>
  "wrong" in holds ? `${name}: ${holds.wrong}` : `${name}: ${holdsWords(holds.counts)}`;

const noSuch = (exports: readonly ExportFile[], named: string): Reply =>
  refuse("no-archive", `There is no archive called ${named} in the folder exports.`, {
    lines: exports.slice(0, OFFERED).map(line),
    facts: { archives: exports.map(({ name }) => name) },
  });
