import type { Said } from "./sentences.ts";

/** Short words beside the shelf and over the jug. */
export const stillGoodSentences = {
  bottles: [
    ["acorn still good?", { bottle: "acorn" }],
    ["blix still ok", { solution: "blix" }],
    ["are the bottles still good"],
    ["are all bottles ok"],
    ["is the developer still any good", { solution: "developer" }],
    ["is Acorn any good", { bottle: "acorn" }],
    ["how old's the blix", { solution: "blix" }],
    ["how old's Acorn", { bottle: "acorn" }],
  ],
  expires: [
    ["whens acorn off", { bottle: "acorn" }],
    ["when's the blix off", { solution: "blix" }],
  ],
  "which bottle": [["can i do three 35s tonight", { film: [{ count: 3, format: "135" }] }]],
  fill: [
    ["topped up acorn with 50 ml", { bottle: "acorn", topped: true, more: 50 }],
    ["I topped Acorn up with 50 ml", { bottle: "acorn", topped: true, more: 50 }],
  ],
  waste: [
    ["waste blix", { solution: "blix" }],
    ["waste old fixer", { solution: "fixer" }],
  ],
  mix: [["mix me a quart of dev", { total: 946.353, solution: "developer" }]],
  "water in": [["waters in"], ["water's in"]],
  "part amount": [
    ["how much water", { part: "water" }],
    ["how much b", { part: "b" }],
    ["how much of part c do i need", { part: "c" }],
    ["how much goes in now"],
  ],
  "wrong part": [
    ["oops wrong part"],
    ["wrong part"],
    ["i put c in by mistake", { part: "c" }],
    ["I put the wrong part in"],
    ["part b went in by mistake", { part: "b" }],
    ["i added b twice", { part: "b" }],
  ],
} as const satisfies Readonly<Record<string, readonly Said[]>>;
