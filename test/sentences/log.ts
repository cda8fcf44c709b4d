import { oldRunSentences } from "./record-more.ts";
import type { Said } from "./sentences.ts";

const name = (text: string) => ({ kind: "name", text });
const dates = (from?: string, to?: string) => ({
  kind: "dates",
  ...(from === undefined ? {} : { from }),
  ...(to === undefined ? {} : { to }),
});
const push = (stops: number | "push" | "pull") => ({ kind: "push", stops });
const fault = (what: string, bath?: string) => ({
  kind: "fault",
  fault: what,
  ...(bath === undefined ? {} : { bath }),
});

/** What people ask of the log. It is the evening of Saturday 28 November 2026 in Lisbon. */
export const logSentences: Readonly<Record<string, readonly Said[]>> = {
  "find runs": [
    ["runs"],
    ["all runs"],
    ["all runs with Dora", { filters: [name("dora")] }],
    ["show me all runs with Ana Maria", { filters: [name("ana maria")] }],
    ["runs with Acorn", { filters: [name("acorn")] }],
    ["runs in tank North", { filters: [name("tank north")] }],
    ["runs in October", { filters: [dates("2026-10-01", "2026-10-31")] }],
    ["runs in december", { filters: [dates("2025-12-01", "2025-12-31")] }],
    ["runs in 2025", { filters: [dates("2025-01-01", "2025-12-31")] }],
    ["runs since 3 november", { filters: [dates("2026-11-03")] }],
    ["runs before 3 november", { filters: [dates(undefined, "2026-11-02")] }],
    ["runs between march and may", { filters: [dates("2026-03-01", "2026-05-31")] }],
    ["runs this year", { filters: [dates("2026-01-01", "2026-11-28")] }],
    ["runs last month", { filters: [dates("2026-10-01", "2026-10-31")] }],
    ["runs of the last three weeks", { filters: [dates("2026-11-08", "2026-11-28")] }],
    ["runs from yesterday", { filters: [dates("2026-11-27", "2026-11-27")] }],
    ["runs pushed two stops", { filters: [push(2)] }],
    ["all runs that were pushed", { filters: [push("push")] }],
    ["runs without a push", { filters: [push(0)] }],
    ["C-41 runs", { filters: [{ kind: "process", mark: "C-41" }] }],
    ["runs in C-41", { filters: [{ kind: "process", mark: "C-41" }] }],
    ["runs of 120", { filters: [{ kind: "film", format: "120" }] }],
    ["runs with two rolls of 120", { filters: [{ kind: "film", format: "120", count: 2 }] }],
    ["which runs went wrong", { filters: [fault("any")] }],
    ["runs without deviations", { filters: [{ kind: "clean" }] }],
    ["runs with a skipped bath", { filters: [fault("skipped")] }],
    [
      "every run with Dora in october",
      { filters: [name("dora"), dates("2026-10-01", "2026-10-31")] },
    ],
    ["runs where something was odd", { filters: [fault("any")] }],
    ["runs with a short wash", { filters: [fault("short", "wash")] }],
    ["runs where the developer was too warm", { filters: [fault("warm", "developer")] }],
    ["runs with the red thermometer", { filters: [name("red thermometer")] }],
    ["runs that I stopped", { filters: [{ kind: "stopped" }] }],
    ["all rehearsals", { filters: [{ kind: "rehearsals" }] }],
    [
      "all runs pushed two stops with Dora in October",
      { filters: [push(2), name("dora"), dates("2026-10-01", "2026-10-31")] },
    ],
    [
      "runs of 120 in E-6 with Acorn since march 2025",
      {
        filters: [
          { kind: "film", format: "120" },
          { kind: "process", mark: "E-6" },
          name("acorn"),
          dates("2025-03-01"),
        ],
      },
    ],
    ["how many runs in October", { filters: [dates("2026-10-01", "2026-10-31")] }],
    ["search the log for Acorn", { filters: [name("acorn")] }],
  ],
  export: [["export everything"], ["back up the bench"], ["make a backup"]],
  exports: [["exports"], ["which exports are there"], ["show me the backups"]],
  forget: [
    ["forget everything about Dora", { person: "Dora" }],
    ["delete everything you know about Ana Maria", { person: "Ana Maria" }],
    ["forget everything about me"],
    ["forget Dora", { person: "Dora" }],
    ["forget the whole bench", { whole: true }],
    ["wipe everything", { whole: true }],
  ],
  "how often": [
    ["how often did the wash run short", { filters: [fault("short", "wash")] }],
    ["how often was the developer too cold", { filters: [fault("cold", "developer")] }],
    ["how many times did I push two stops", { filters: [push(2)] }],
    [
      "how often did we skip the wash this year",
      { filters: [fault("skipped", "wash"), dates("2026-01-01", "2026-11-28")] },
    ],
    ["how many times did the developer come out late", { filters: [fault("long", "developer")] }],
    ["how often did I use Acorn", { filters: [name("acorn")] }],
  ],
  "last time": [
    ["last time I pushed two stops", { filters: [push(2)] }],
    ["when did I last push two stops", { filters: [push(2)] }],
    ["when was the last time I did E-6", { filters: [{ kind: "process", mark: "E-6" }] }],
    ["when did we last use Acorn", { filters: [name("acorn")] }],
    ["last time I developed"],
    ["when was the last time we developed film"],
    ["when did I last develop a roll"],
    ["last run with Dora", { filters: [name("dora")] }],
    ["when was the last time the wash ran short", { filters: [fault("short", "wash")] }],
  ],
  "repeat block": [
    ["take this block", {}],
    ["import this plan x1", { block: "x1" }],
    [
      'try {"schema":"wetside-repeatable","version":1}',
      { block: '{"schema":"wetside-repeatable","version":1}' },
    ],
  ],
  restore: [
    ["restore everything"],
    ["restore from home-2026-11-28-2130.zip", { file: "home-2026-11-28-2130.zip" }],
    ["restore from home (1).zip", { file: "home (1).zip" }],
    ["restore from exports my old bench.zip", { file: "my old bench.zip" }],
    ["import everything from home.zip", { file: "home.zip" }],
  ],
  "show run": [
    ...oldRunSentences,
    ["show run 12", { number: 12 }],
    ["run twelve", { number: 12 }],
    ["the run of 3 november", { pastDate: "2026-11-03" }],
    ["summary of run 12", { number: 12 }],
    ["show me the run of yesterday", { pastDate: "2026-11-27" }],
  ],
  usual: [
    ["what temperature do I usually end at", { edge: "end" }],
    ["what temperature do we normally start at", { edge: "start" }],
    ["what is my usual end temperature", { edge: "end" }],
    ["how long do I usually wash", { bath: "wash" }],
    ["usual developer time", { bath: "developer" }],
    ["how warm is the developer usually at the end", { edge: "end" }],
    ["what is my usual developer time", { bath: "developer" }],
    ["what temperature do I usually end at with Dora", { edge: "end", filters: [name("dora")] }],
    [
      "what temperature do I usually end at in october",
      { edge: "end", filters: [dates("2026-10-01", "2026-10-31")] },
    ],
  ],
};
