import type { Origin } from "../origin.ts";
import type { Bath, Sheet } from "../process/sheet.ts";
import { units } from "../units/quantity.ts";
import type { Answers, BathAnswers } from "./answers.ts";

/** A complete set of answers as a sheet; every figure's origin is that sheet. */
export function buildSheet(id: string, answers: Answers): Sheet {
  const name = answers.name ?? id;
  const origin: Origin = {
    kind: answers.invented === true ? "invented" : "sheet",
    source: answers.from === undefined ? name : `${name}, ${answers.from}`,
  };
  return {
    id,
    name,
    called: [],
    process: answers.process ?? "C-41",
    ...(answers.measure === "us" || answers.measure === "imperial"
      ? { country: answers.measure }
      : {}),
    invented: answers.invented === true,
    baths: (answers.baths ?? []).map((bath) =>
      buildBath(bath, answers.bath?.[bath.name] ?? {}, origin),
    ),
  };
}

function buildBath(bath: { name: string; kind: string }, told: BathAnswers, origin: Origin): Bath {
  const figure = <T extends number>(value: T) => ({ value, origin });
  const { total, water, warm, parts, time, temperature, agitation, capacity, keeps, keepsPart } =
    told;
  return {
    name: bath.name,
    kind: bath.kind,
    sense: time?.sense ?? "at least",
    ...(total === undefined || total === null || water === undefined
      ? {}
      : {
          mix: {
            total: figure(total),
            startWater: figure(water),
            ...(warm === undefined || warm === null ? {} : { temperature: figure(warm) }),
            parts: (parts ?? []).map((part) => ({ ...part, origin })),
          },
        }),
    ...(time === undefined ? {} : { time: figure(time.time) }),
    ...(temperature === undefined || temperature === null
      ? {}
      : {
          temperature: figure(temperature.temperature),
          ...(temperature.tolerance === undefined
            ? {}
            : { tolerance: figure(temperature.tolerance) }),
        }),
    ...(agitation === undefined || agitation === null
      ? {}
      : {
          agitation: {
            initial: figure(agitation.initial),
            ...(agitation.every === undefined ? {} : { every: figure(agitation.every) }),
            ...(agitation.each === undefined ? {} : { each: figure(agitation.each) }),
          },
        }),
    ...(capacity === undefined || capacity === null ? {} : { capacity: figure(units(capacity)) }),
    ...(keeps === undefined || keeps === null ? {} : { keeps: figure(keeps) }),
    ...(keepsPart === undefined || keepsPart === null ? {} : { keepsPart: figure(keepsPart) }),
    ...buildReuse(told, origin),
    ...(told.push === undefined || told.push === null ? {} : { push: { ...told.push, origin } }),
    ...(told.times === undefined || told.times === null
      ? {}
      : { timeLaw: { ...told.times, origin } }),
    ...(told.compensation === undefined || told.compensation === null
      ? {}
      : { compensation: told.compensation }),
  };
}

function buildReuse(told: BathAnswers, origin: Origin): Pick<Bath, "reuse" | "replenish"> {
  const { reuse } = told;
  if (reuse === undefined || reuse === null) return {};
  if (reuse.kind === "replenish") return { replenish: { value: reuse.ml, origin } };
  return reuse.kind === "table"
    ? { reuse: { ...reuse, means: told.rows ?? "done", origin } }
    : { reuse: { ...reuse, origin } };
}
