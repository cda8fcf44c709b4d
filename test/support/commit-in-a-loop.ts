/**
 * A process to kill: commits tallies to the folder given and prints the count of each once it is
 * acknowledged, up to the second argument; then holds the folder until its input ends. What the
 * store says when it refuses is printed as well.
 */
import { writeSync } from "node:fs";
import { openFileStore } from "../../src/store/file-store.ts";
import { nextTally, tallySchema } from "./tally.ts";

const [directory = "", most = "100000"] = process.argv.slice(2);
const say = (line: string): number => writeSync(1, `${line}\n`);

try {
  const store = await openFileStore({
    directory,
    schema: tallySchema,
    limits: { bytes: 4000, commits: 7 },
  });
  say("open");
  let { value } = await store.load("home");
  const last = (value?.count ?? 0) + Number(most);
  while ((value?.count ?? 0) < last) {
    const next = nextTally(value);
    await store.commit("home", value, next);
    say(String(next.count));
    value = next;
  }
  say("done");
  for await (const _ of process.stdin);
  await store.close();
} catch (error) {
  say(error instanceof Error ? error.message : String(error));
}
