import { bathEvidence } from "./evidence-baths.ts";
import { bottleEvidence } from "./evidence-bottles.ts";
import { filmEvidence } from "./evidence-film.ts";
import { noteEvidence } from "./evidence-notes.ts";
import { temperatureEvidence } from "./evidence-temperature.ts";
import { timeEvidence } from "./evidence-time.ts";
import type { Evidence, RunFacts } from "./run-facts.ts";

/** All that the log has to say, in the order of the process. */
export const evidenceOf = (facts: RunFacts): readonly Evidence[] => [
  ...filmEvidence(facts),
  ...temperatureEvidence(facts),
  ...timeEvidence(facts),
  ...bathEvidence(facts),
  ...bottleEvidence(facts),
  ...noteEvidence(facts),
];
