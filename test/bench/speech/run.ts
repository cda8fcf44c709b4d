import type { Place } from "../../speech/listen.ts";
import { benchPhrases, benchTalk, type HearOptions, type PlaceResult } from "./hear.ts";

const arg = Object.fromEntries(process.argv.slice(2).map((one) => one.split("=")));
const options: HearOptions = {
  every: Number(arg.every ?? 3),
  from: Number(arg.from ?? 0),
  whole: arg.whole === "yes",
};
const places: Place[] = (arg.places ?? "quiet,water20,water10")
  .split(",")
  .filter(Boolean)
  .map((one: string) => {
    const m = /^([a-z]+?)(\d+)?$/.exec(one);
    return m?.[2] === undefined
      ? {}
      : { noise: m[1] as NonNullable<Place["noise"]>, db: Number(m[2]) };
  });
for (const place of places) {
  const [r] = (await benchPhrases([place], options)) as [PlaceResult];
  const { errors, ...rest } = r;
  process.stdout.write(
    `${JSON.stringify(rest, (_, v) => (typeof v === "number" ? Number(v.toFixed(1)) : v))}\n${errors.map((e) => `    ${e}\n`).join("")}`,
  );
}
if (arg.talk !== undefined) {
  const { errors, ...rest } = await benchTalk({}, { ...options, every: Number(arg.talk) });
  process.stdout.write(`${JSON.stringify(rest)}\n${errors.map((e) => `    ${e}\n`).join("")}`);
}
