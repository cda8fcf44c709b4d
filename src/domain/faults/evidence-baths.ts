import { isDeveloper } from "../process/sheet.ts";
import { showVolume } from "../units/show.ts";
import type { Evidence, RunFacts } from "./run-facts.ts";
import { bleaches, fixes, stagesWith } from "./run-facts.ts";

/** The order the baths were poured in, and whether there was enough of the first. */
export function bathEvidence({ run, looks, needs }: RunFacts): readonly Evidence[] {
  const developers = stagesWith(run, isDeveloper).map(({ stage }) => stage);
  const later = stagesWith(run, (kind) => fixes(kind) || bleaches(kind)).map(({ stage }) => stage);
  const wet = developers.flatMap(({ inAt }) => (inAt === undefined ? [] : [inAt]));
  const first = Math.min(...wet);
  const found: Evidence[] = [];
  const early = later.find(({ inAt }) => inAt !== undefined && inAt < first);
  const [developer] = developers;
  if (developer !== undefined && wet.length === 0) {
    found.push({ kind: "developer-missing", text: `${developer.bath}: never poured in this run` });
  } else if (developer !== undefined && early !== undefined) {
    const text = `${early.bath} went in before ${developer.bath}`;
    found.push({ kind: "fixing-before-developer", text });
  } else if (developer?.inAt !== undefined && developer.plusMinus === undefined) {
    found.push({ kind: "order-kept", text: `${developer.bath} was the first bath by the log` });
  }
  const look = looks.get(developer?.bottle ?? "");
  if (developer?.inAt !== undefined && look !== undefined && needs !== undefined) {
    const { name, volume } = look.bottle;
    const text = `${name} was filled with ${showVolume(volume)}, and these reels need ${showVolume(needs)}`;
    found.push({ kind: volume < needs - 1e-9 ? "volume-low" : "volume-enough", text });
  }
  return found;
}
