import type { Said } from "./sentences.ts";

/** What is said about readings, thermometers and times: added to the rows of their commands. */
export const readingSentences: Readonly<Record<string, readonly Said[]>> = {
  strike: [
    ["strike that reading"],
    ["forget the last reading"],
    ["the last reading was wrong"],
    ["I misread the thermometer"],
    ["strike 27.4", { temperature: 27.4 }],
    ["strike the reading of 27.4 in tank north", { temperature: 27.4, tank: "North" }],
    ["north strike that reading", { tank: "North" }],
  ],
};
