import type { Said } from "./sentences.ts";

const nothing = { given: {} };

/** Faults of film: what went wrong, and what proved true. */
export const faultSentences: Readonly<Record<string, readonly Said[]>> = {
  diagnose: [
    ["what went wrong"],
    ["go on with the diagnosis"],
    ["what went wrong with tank north", { tank: "North" }],
    ["the film is milky", { complaint: { symptoms: ["milky"], ...nothing } }],
    ["what causes drying marks", { seen: { symptoms: ["drop-marks"], ...nothing } }],
    ["diagnose brown stains", { seen: { symptoms: ["brown-stain"], ...nothing } }],
    ["why is my film fogged", { complaint: { symptoms: ["fogged"], ...nothing } }],
    ["tank north film is milky", { tank: "North", seen: { symptoms: ["milky"], ...nothing } }],
  ],
  confirmed: [
    ["confirmed 1", { number: 1 }],
    ["it was the developer", {}],
    ["turns out it was the blix", {}],
    ["number two was right", { number: 2 }],
    ["it was the bottle", { cause: "bottle" }],
    ["it was the thermometer", { cause: "thermometer-off" }],
    ["it turned out to be the fixer", { cause: "fixer-spent" }],
    ["it was Acorn", { bottle: "acorn" }],
    ["it was the red thermometer", { thermometer: "red" }],
    ["it was a weak mix", { cause: "weak-mix" }],
    ["turns out it was the cold developer", { cause: "cold-developer" }],
    ["so it was drying marks", { cause: "drying-drops" }],
  ],
};
