import type { Said } from "./sentences.ts";

/** What is said about readings, thermometers and times: added to the rows of their commands. */
export const readingSentences = {
  strike: [
    ["strike that reading"],
    ["forget the last reading"],
    ["the last reading was wrong"],
    ["I misread the thermometer"],
    ["strike 27.4", { temperature: { degrees: 27.4 } }],
    ["strike the reading of 27.4 in tank north", { temperature: { degrees: 27.4 }, tank: "North" }],
    ["north strike that reading", { tank: "North" }],
  ],
  temperature: [
    ["temperature 30 in the blix", { solution: "blix", temperature: 30 }],
    ["temperature blix is 38", { solution: "blix", temperature: 38 }],
    [
      "north temperature 37.5 on the red thermometer",
      { tank: "North", temperature: 37.5, thermometer: "red" },
    ],
    [
      "north is at 37.5 by the red thermometer",
      { tank: "North", temperature: 37.5, thermometer: "red" },
    ],
    ["it was 37.2 a minute ago on the red one", { temperature: 37.2, ago: 60, thermometer: "red" }],
    [
      "north was at 37.2 a minute ago on the red one",
      { tank: "North", temperature: 37.2, ago: 60, thermometer: "red" },
    ],
    [
      "developer was at 37.2 one minute ago in tank north",
      { solution: "developer", temperature: 37.2, ago: 60, tank: "North" },
    ],
    ["temperature of the blix 38", { solution: "blix", temperature: 38 }],
  ],
  times: [
    ["times for harbour fine", { table: "harbour fine" }],
    ["what are the times for D-76", { table: "D-76" }],
    ["do you have times for harbour fine", { table: "harbour fine" }],
  ],
  rehearse: [
    [
      "rehearse developer two rolls of 120",
      { solution: "developer", film: [{ count: 2, format: "120" }] },
    ],
  ],
  start: [
    ["start developer 6:30 at 22", { solution: "developer", duration: 390, temperature: 22 }],
    [
      "start developer one roll of 120 6:30 at 22",
      {
        solution: "developer",
        film: [{ count: 1, format: "120" }],
        duration: 390,
        temperature: 22,
      },
    ],
  ],
} satisfies Readonly<Record<string, readonly Said[]>>;
