import type { Said } from "./sentences.ts";

const ml = (millilitres: number) => millilitres;
const at = (degrees: number) => ({ degrees });

/** How people at a sink say temperatures, times and heat: added to the rows of their commands. */
export const wetHandSentences = {
  temperature: [
    ["temperature 20.0 five minutes ago", { temperature: 20, ago: 300 }],
    ["north temperature 38.1 two minutes ago", { tank: "North", temperature: 38.1, ago: 120 }],
    ["a moment ago it was 20.2", { temperature: 20.2 }],
    ["developer 37.2 a minute ago", { solution: "developer", temperature: 37.2, ago: 60 }],
    ["temp north 38.2", { tank: "North", temperature: 38.2 }],
    ["temperature in north is 37.9", { tank: "North", temperature: 37.9 }],
    ["bath in north is 37.9", { tank: "North", temperature: 37.9 }],
    ["it's 20.1 in there now", { temperature: 20.1 }],
    ["north 37.2", { tank: "North", temperature: 37.2 }],
    ["north 37.3 on the red one", { tank: "North", temperature: 37.3, thermometer: "red" }],
    [
      "the red thermometer in north reads 38.4",
      { thermometer: "red", tank: "North", temperature: 38.4 },
    ],
    [
      "red thermometer says 38.5 in north",
      { thermometer: "red", tank: "North", temperature: 38.5 },
    ],
    ["red one says 38.5", { thermometer: "red", temperature: 38.5 }],
    ["38.3 on the red one", { thermometer: "red", temperature: 38.3 }],
    [
      "temperature 38.0 on the probe thermometer in north",
      { thermometer: "probe", tank: "North", temperature: 38 },
    ],
    ["it is too cold"],
    ["the developer is a little too warm", { solution: "developer" }],
    ["bath 39.4", { temperature: 39.4 }],
    ["20.3 degrees", { temperature: 20.3 }],
    ["37.9 degrees in north", { temperature: 37.9, tank: "North" }],
  ],
  thermometer: [
    [
      "my blue thermometer says 37.5 and the glass one says 38",
      { thermometer: "blue", read: at(37.5), other: "glass", reference: at(38) },
    ],
    [
      "the probe reads 37.6 where the reference reads 38.0",
      { thermometer: "probe", read: at(37.6), reference: at(38) },
    ],
    ["the red thermometer is off by 0.4", { thermometer: "red", off: at(0.4) }],
    ["the red one is half a degree too low", { thermometer: "red", low: at(0.5) }],
  ],
  "how long": [
    ["how long should I fix", { solution: "fixer" }],
    ["how long must I bleach for", { solution: "bleach" }],
    ["how long should I wash", { solution: "wash" }],
    ["how long do I develop for"],
    ["how long must I fix at 10 degrees", { solution: "fixer", temperature: 10 }],
    ["how long should the wash be at 12", { solution: "wash", temperature: 12 }],
    ["wash time at 5 C", { solution: "wash", temperature: 5 }],
    ["wash at 8 degrees how long", { solution: "wash", temperature: 8 }],
    ["how long to develop at 70 F", { temperature: 21.111 }],
  ],
  "pour drop": [
    [
      "I pour 500 ml of developer at 39 into a tank at 20",
      { volume: ml(500), developer: at(39), vessel: at(20) },
    ],
    [
      "how much will it cool when I pour 500 ml at 38 into a tank at 21",
      { volume: ml(500), developer: at(38), vessel: at(21) },
    ],
    [
      "if the tank is 18 how hot should the developer be to end at 38 with 600 ml",
      { vessel: at(18), aim: at(38), volume: ml(600) },
    ],
    [
      "tank drop: developer 38.5, tank 22, 500 ml, tank north",
      { developer: at(38.5), vessel: at(22), volume: ml(500), tank: "north" },
    ],
  ],
  forecast: [
    [
      "when will the bath reach 38? it was 46 ten minutes ago, now 44, the room is 20",
      { target: at(38), before: at(46), ago: 600, bath: at(44), room: at(20) },
    ],
  ],
  trim: [
    [
      "cool the bath from 39 to 38, 1 litre, cold water 12",
      { now: at(39), target: at(38), total: ml(1000), supply: at(12) },
    ],
  ],
  left: [["how long do I have"], ["how long have I got in north", { tank: "North" }]],
  "tank movement": [
    ["tank drum is rotary", { tank: "drum", movement: "rotary" }],
    ["tank east runs on a motor base", { tank: "east", movement: "rotary" }],
  ],
  rehearse: [
    ["practice run with water"],
    [
      "let's do a trial run of colour negative at double speed",
      { sheet: "colour-negative", speed: 2 },
    ],
  ],
  start: [
    [
      "start the demo process two rolls of 120",
      { sheet: "demo", film: [{ count: 2, format: "120" }] },
    ],
  ],
} satisfies Readonly<Record<string, readonly Said[]>>;
