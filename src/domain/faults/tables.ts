/** How well the passage behind a line was seen. */
export const faultGrades = [
  "read",
  "read in excerpt",
  "read-secondary",
  "from memory",
  "common practice",
] as const;

/** Where a line comes from, and how well that was seen. */
export type FaultSource = {
  readonly source: string;
  readonly grade: (typeof faultGrades)[number];
};

/** A sentence with its source. */
export type Sourced = { readonly text: string; readonly from: FaultSource };

/** `chemicals`: kinds of bath that hands will touch, for the cautions; empty where none are needed. */
export type FaultAdvice = Sourced & { readonly chemicals: readonly string[] };

/** What can be blamed and set apart when a cause proves true. */
export const culpritRoles = ["developer", "fixing", "bleaching", "thermometer", "sheet"] as const;
export type CulpritRole = (typeof culpritRoles)[number];

export type Cause = {
  readonly id: string;
  /** A clause: "the developer was too cold". */
  readonly name: string;
  /** Other words for it, when somebody says that it was that. */
  readonly ways: readonly string[];
  readonly culprit?: CulpritRole | undefined;
  /** Something foreign is in the culprit then: no clip test proves it clean. */
  readonly foul?: true | undefined;
  /** Only where a process forms colours. */
  readonly only?: "colour" | undefined;
  readonly how: Sourced;
  /** What needs no chemicals stands first. */
  readonly checks: readonly FaultAdvice[];
  readonly rescue: FaultAdvice & { readonly possible: "yes" | "partly" | "no" };
};

export type Symptom = {
  readonly id: string;
  readonly name: string;
  /** Words that need film in the sentence, and words that stand alone. */
  readonly ways: readonly string[];
  readonly nouns: readonly string[];
  readonly from: readonly FaultSource[];
  /** Questions worth asking, the most telling first. */
  readonly asks: readonly string[];
  /** Most likely first; points are our own judgement of that order. */
  readonly causes: readonly { readonly id: string; readonly points: number }[];
};

export type FaultOption = {
  readonly word: string;
  readonly ways: readonly string[];
  readonly because: string;
  readonly causes: Readonly<Record<string, number>>;
};

export type FaultQuestion = {
  readonly id: string;
  readonly ask: string;
  /** The same in one breath, where `ask` is longer. */
  readonly say?: string | undefined;
  readonly how: string;
  readonly from: FaultSource;
  readonly options: readonly FaultOption[];
};

export type EvidenceRule = {
  readonly from: FaultSource;
  readonly causes: Readonly<Record<string, number>>;
};

/** Everything the ranking is made from. */
export type FaultTables = {
  readonly causes: ReadonlyMap<string, Cause>;
  readonly symptoms: ReadonlyMap<string, Symptom>;
  readonly questions: ReadonlyMap<string, FaultQuestion>;
  /** By kind of evidence. */
  readonly evidence: ReadonlyMap<string, EvidenceRule>;
};
