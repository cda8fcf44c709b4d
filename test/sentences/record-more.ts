import type { Said } from "./sentences.ts";

const edge = { red: 201, green: 128, blue: 90, most: 255 };
const grey = { red: 120, green: 119, blue: 118, most: 255 };

/** Old runs by their number, and a scanner's numbers in one breath. */
export const lookSentences: readonly Said[] = [
  ["first look at run 12", { number: 12 }],
  ["take a first look at run twelve", { number: 12 }],
  ["first look crisp but cloudy", { seen: { edgeNumbers: "crisp", clearParts: "cloudy" } }],
  ["the edge numbers are faint", { seen: { edgeNumbers: "faint" } }],
  ["first look 201 128 90", { rgb: edge }],
  ["scanner edge 201 128 90, grey 120 119 118", { rgb: edge, grey }],
  ["first look by scanner 201,128,90 and a grey 120,119,118", { rgb: edge, grey }],
];

export const shareSentences: readonly Said[] = [
  ["share picture", { form: "picture" }],
  ["share the picture with the group", { form: "picture" }],
  ["share it as a picture", { form: "picture" }],
  ["share it so others can repeat it", { form: "repeatable" }],
  ["share tank north", { tank: "North" }],
  ["share run 12", { number: 12 }],
  ["share the picture of run 12", { number: 12, form: "picture" }],
  ["share run 12 as a plan", { number: 12, form: "repeatable" }],
  ["repeatable of tank north", { tank: "North", plan: "repeatable" }],
];

export const oldRunSentences: readonly Said[] = [
  ["run 12 as markdown", { number: 12, form: "markdown" }],
  ["picture of run 12", { number: 12, form: "picture" }],
  ["show me the picture of the run of 3 november", { pastDate: "2026-11-03", form: "picture" }],
  ["the run of 3 november as json", { pastDate: "2026-11-03", form: "json" }],
];

export const tonightSentences: readonly Said[] = [
  ["give me the record of tonight"],
  ["summary of this evening as markdown", { form: "markdown" }],
  ["draw a picture of the session", { form: "picture" }],
];
