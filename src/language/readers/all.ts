import type { SlotReader } from "../reader.ts";
import { readAmount } from "./amount.ts";
import { readArea, readAreaUnit } from "./area.ts";
import { readBath } from "./bath.ts";
import { readClock } from "./clock-time.ts";
import { readCount } from "./count.ts";
import { readCountry } from "./country.ts";
import { readPastDate } from "./date-past.ts";
import { readDegrees } from "./degrees.ts";
import { readDifference } from "./difference.ts";
import { readDilution } from "./dilution.ts";
import { readDuration } from "./duration.ts";
import { readFilm } from "./film.ts";
import { readFormula } from "./formula.ts";
import { readNewName, readNewTank, readText, readWord } from "./free-text.ts";
import { readHeat } from "./heat.ts";
import { readMass, readMassUnit } from "./mass.ts";
import { nameReader } from "./names.ts";
import { numberReader } from "./number.ts";
import { readPercent } from "./percent.ts";
import { readTemperature } from "./temperature.ts";
import { readVolume, readVolumeUnit } from "./volume.ts";
import { readYes } from "./yes.ts";

/** Every slot a template may name. */
export type ReaderName =
  | "amount"
  | "area"
  | "areaUnit"
  | "bath"
  | "bottle"
  | "clock"
  | "count"
  | "country"
  | "degrees"
  | "difference"
  | "dilution"
  | "duration"
  | "film"
  | "formula"
  | "heat"
  | "mass"
  | "massUnit"
  | "newName"
  | "newTank"
  | "number"
  | "pastDate"
  | "percent"
  | "sheet"
  | "solution"
  | "tank"
  | "temperature"
  | "text"
  | "volume"
  | "volumeUnit"
  | "word"
  | "yes";

export const readers: Record<ReaderName, SlotReader> = {
  amount: readAmount,
  area: readArea,
  areaUnit: readAreaUnit,
  bath: readBath,
  bottle: nameReader("bottle"),
  clock: readClock,
  count: readCount,
  country: readCountry,
  degrees: readDegrees,
  difference: readDifference,
  dilution: readDilution,
  duration: readDuration,
  film: readFilm,
  formula: readFormula,
  heat: readHeat,
  mass: readMass,
  massUnit: readMassUnit,
  newName: readNewName,
  newTank: readNewTank,
  number: numberReader,
  pastDate: readPastDate,
  percent: readPercent,
  sheet: nameReader("sheet"),
  solution: readBath,
  tank: nameReader("tank"),
  temperature: readTemperature,
  text: readText,
  volume: readVolume,
  volumeUnit: readVolumeUnit,
  word: readWord,
  yes: readYes,
};

/** Free text: the matcher may put the words as typed (`asTyped`) in the place of the value. */
export const takenAsTyped: ReadonlySet<ReaderName> = new Set(["word", "text", "newName"]);
