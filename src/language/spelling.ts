/** One spelling for words that people write in several ways. Common usage, no source. */
export const spellings: ReadonlyMap<string, readonly string[]> = new Map(
  Object.entries({
    color: "colour",
    colors: "colours",
    grey: "gray",
    dev: "developer",
    stabiliser: "stabilizer",
    stabilisers: "stabilizers",
    temp: "temperature",
    temps: "temperatures",
    okay: "ok",
    cannot: "can not",
    "can't": "can not",
    cant: "can not",
    "won't": "will not",
    dont: "do not",
    didnt: "did not",
    isnt: "is not",
    im: "i am",
    ive: "i have",
    "let's": "let us",
    whats: "what is",
    whens: "when is",
    wheres: "where is",
    hows: "how is",
    thats: "that is",
    "½": "1/2",
  }).map(([from, to]) => [from, to.split(" ")]),
);

/** "what's" is "what is"; after any other word the "'s" is possession and goes. */
export const saysIs: ReadonlySet<string> = new Set(
  "what it that there here where when who how old he she this which everything".split(" "),
);

/** The word behind an apostrophe. */
export const contractions: ReadonlyMap<string, string> = new Map([
  ["m", "am"],
  ["re", "are"],
  ["ve", "have"],
  ["ll", "will"],
  ["d", "would"],
]);
