/**
 * How well speech is heard, place by place, as JSON with what went wrong:
 * node test/bench/speech/measure.ts [every=4] [from=0] [whole=yes] [talk=1] [places=0,7,8]
 */
import { benchPhrases, benchTalk } from "./hear.ts";
import { places } from "./places.ts";

const given = Object.fromEntries(process.argv.slice(2).map((one) => one.split("=")));
const options = {
  every: Number(given.every ?? 4),
  from: Number(given.from ?? 0),
  whole: given.whole === "yes",
};
const chosen =
  given.places === undefined
    ? places
    : places.filter((_, at) => given.places.split(",").includes(String(at)));
for (const place of chosen) {
  for (const result of await benchPhrases([place], options)) {
    process.stdout.write(`${JSON.stringify(result, undefined, 1)}\n`);
  }
}
if (given.talk !== undefined) {
  const result = await benchTalk({}, { ...options, every: Number(given.talk) });
  process.stdout.write(`${JSON.stringify(result, undefined, 1)}\n`);
}
