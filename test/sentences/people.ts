import type { Said } from "./sentences.ts";

/** What several people at one bench say: shifts, who did what, who has what, what goes back. */
export const peopleSentences: Readonly<Record<string, readonly Said[]>> = {
  handover: [
    ["handover to Dora", { person: "Dora" }],
    ["hand over to Ana Maria", { person: "Ana Maria" }],
    ["I am handing over to Bruno", { person: "Bruno" }],
    ["Dora takes over", { person: "Dora" }],
  ],
  "last handover": [["last handover"], ["what was handed over"], ["who has the shift"]],
  "sign in": [
    ["sign in Acorn", { thing: "Acorn" }],
    ["sign in the red thermometer", { thing: "the red thermometer" }],
    ["I am using tank north", { thing: "tank north" }],
  ],
  "sign out": [
    ["sign out"],
    ["sign out Acorn", { thing: "Acorn" }],
    ["sign out of everything"],
    ["give back tank north", { thing: "tank north" }],
  ],
  "in use": [
    ["what is in use"],
    ["sign-in list"],
    ["who has Acorn", { thing: "Acorn" }],
    ["who is using tank north", { thing: "north" }],
  ],
  "who did": [
    ["who did what in run 12", { number: 12 }],
    ["who did what"],
    ["who poured the blix", { solution: "blix" }],
    ["who mixed Acorn", { bottle: "acorn" }],
    ["who did what in tank north", { tank: "North" }],
  ],
  verdict: [
    ["shall we pour the baths back or bin them"],
    ["should I keep the baths"],
    ["return or retire"],
    ["does Acorn go back", { bottle: "acorn" }],
    ["which bottles go back"],
    ["verdict on Banjo", { bottle: "banjo" }],
  ],
};
