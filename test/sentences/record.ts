import { lookSentences, tonightSentences } from "./record-more.ts";
import type { Said } from "./sentences.ts";

const sound = {
  edgeNumbers: "crisp",
  clearParts: "clear",
  rebate: "sound",
  sameOnAll: true,
  place: "nothing",
};

/** The record of a session: what is asked after it, what is seen of the film, its forms, the season. */
export const recordSentences: Readonly<Record<string, readonly Said[]>> = {
  "wrap up": [
    ["wrap up"],
    ["wrap it up"],
    ["wrap up tank north", { tank: "North" }],
    ["end questions for north", { tank: "North" }],
    ["ask me about the run"],
    ["developer was 38.1 at the start and 37.8 at the end", { ends: { start: 38.1, end: 37.8 } }],
    ["the developer was 38.1 at the start", { ends: { start: 38.1 } }],
    ["nothing different today", { same: true }],
    ["nothing was different in tank north", { same: true, tank: "North" }],
    ["different today: the water was cold", { different: "the water was cold" }],
  ],
  "first look": [
    ...lookSentences,
    ["first look"],
    ["take a first look"],
    ["first look at tank north", { tank: "North" }],
    ["the negatives are dry"],
    ["first look crisp", { seen: { edgeNumbers: "crisp" } }],
    [
      "first look: crisp, clear, clean",
      { seen: { edgeNumbers: "crisp", clearParts: "clear", rebate: "sound" } },
    ],
    ["first look all good", { seen: sound }],
    ["first look by scanner", { seen: { scanner: true } }],
  ],
  "look time": [
    ["look time"],
    ["ask for the first look at 21:00", { clock: { hour: 21, minute: 0 } }],
    ["set first look after 2 days", { days: 2 }],
    ["ask me for the first look next morning", { usual: true }],
    ["first look off", { state: "off" }],
    ["never ask for a first look", { state: "never" }],
  ],
  "share season": [
    ["share season"],
    ["share our season picture with the group"],
    ["share the season since 1 september 2026", { since: "2026-09-01" }],
  ],
  season: [
    ["season"],
    ["show me the season"],
    ["our season overview"],
    ["season since 1 september 2026", { since: "2026-09-01" }],
    ["season since march", { since: "2026-03-01" }],
    ["how many rolls did we develop since january 2026", { since: "2026-01-01" }],
  ],
};

/** Forms of the summary, beside those of the summary itself. */
export const summaryForms: readonly Said[] = [
  ...tonightSentences,
  ["summary as markdown", { form: "markdown" }],
  ["summary of tank north as json", { tank: "North", form: "json" }],
  ["summary picture", { form: "picture" }],
  ["picture summary", { form: "picture" }],
  ["north summary as a picture", { tank: "North", form: "picture" }],
];
