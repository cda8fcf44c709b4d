import type { SlotReader } from "../reader.ts";
import { readAgo } from "./ago.ts";
import { readAid } from "./aid.ts";
import { readAmount } from "./amount.ts";
import { readArchive } from "./archive.ts";
import { readArea, readAreaUnit } from "./area.ts";
import { readBath } from "./bath.ts";
import { readBathEnds } from "./bath-ends.ts";
import { readRole } from "./bottle-role.ts";
import { readCause } from "./cause.ts";
import { readChosen } from "./chosen.ts";
import { readClock } from "./clock-time.ts";
import { readComplaint, readSymptom } from "./complaint.ts";
import { readContainer } from "./container.ts";
import { readCount } from "./count.ts";
import { readCountry } from "./country.ts";
import { readDateOrUnknown } from "./date-or-unknown.ts";
import { readPastDate } from "./date-past.ts";
import { readDegrees } from "./degrees.ts";
import { readDelay } from "./delay.ts";
import { readDifference } from "./difference.ts";
import { readDilution } from "./dilution.ts";
import { readDrain } from "./drain.ts";
import { readDuration } from "./duration.ts";
import { readEdge } from "./edge.ts";
import { readFill } from "./fill.ts";
import { readFilm } from "./film.ts";
import { readForm } from "./form.ts";
import { readFormula } from "./formula.ts";
import { readFoul } from "./foul.ts";
import { readNewName, readNewTank, readText, readWord } from "./free-text.ts";
import { readHeat } from "./heat.ts";
import { readHeld } from "./held-name.ts";
import { readInJug } from "./in-jug.ts";
import { readLookSign } from "./look-sign.ts";
import { readMass, readMassUnit } from "./mass.ts";
import { readMishap } from "./mishap.ts";
import { readMoment } from "./moment.ts";
import { readMovement } from "./movement.ts";
import { nameReader } from "./names.ts";
import { readNewRolls } from "./new-rolls.ts";
import { readNextMorning } from "./next-morning.ts";
import { readNone } from "./none.ts";
import { readNothing } from "./nothing.ts";
import { numberReader } from "./number.ts";
import { readPartName } from "./part-name.ts";
import { readPercent } from "./percent.ts";
import { readPerson } from "./person.ts";
import { readPlace } from "./place.ts";
import { readRepeats } from "./recurrence.ts";
import { readReels } from "./reels.ts";
import { readReference } from "./reference.ts";
import { readRgb } from "./rgb.ts";
import { readRolls } from "./rolls.ts";
import { readFilters } from "./run-filters.ts";
import { readSeen } from "./seen.ts";
import { readServing } from "./serving.ts";
import { readRepeatableForm, readShareForm } from "./share-form.ts";
import { readSinceDate } from "./since-date.ts";
import { readSpeed } from "./speed.ts";
import { readStops } from "./stops.ts";
import { readTask } from "./task.ts";
import { readReading, readTemperature } from "./temperature.ts";
import { readToppedUp } from "./topped-up.ts";
import { readTraits } from "./traits.ts";
import { readVerdict } from "./verdict.ts";
import { readVolume, readVolumeUnit } from "./volume.ts";
import { readWholeBench } from "./whole-bench.ts";
import { readYes } from "./yes.ts";

/** Every slot a template may name. */
export type ReaderName =
  | "ago"
  | "aid"
  | "amount"
  | "archive"
  | "area"
  | "areaUnit"
  | "bath"
  | "bathEnds"
  | "bottle"
  | "cause"
  | "chosen"
  | "clock"
  | "complaint"
  | "container"
  | "count"
  | "country"
  | "degrees"
  | "delay"
  | "difference"
  | "dilution"
  | "drain"
  | "duration"
  | "edge"
  | "fill"
  | "filters"
  | "film"
  | "form"
  | "formula"
  | "foul"
  | "heat"
  | "held"
  | "inJug"
  | "mass"
  | "massUnit"
  | "mishap"
  | "mixedDate"
  | "movement"
  | "newName"
  | "newRolls"
  | "newTank"
  | "nextMorning"
  | "none"
  | "nothing"
  | "number"
  | "pastDate"
  | "percent"
  | "person"
  | "place"
  | "push"
  | "reading"
  | "reels"
  | "reference"
  | "rgb"
  | "role"
  | "rolls"
  | "repeats"
  | "seen"
  | "serving"
  | "shareForm"
  | "repeatable"
  | "sheet"
  | "sign"
  | "sinceDate"
  | "solution"
  | "speed"
  | "symptom"
  | "tank"
  | "task"
  | "temperature"
  | "text"
  | "partName"
  | "toppedUp"
  | "traits"
  | "verdict"
  | "volume"
  | "volumeUnit"
  | "when"
  | "wholeBench"
  | "word"
  | "yes";

export const readers: Record<ReaderName, SlotReader> = {
  ago: readAgo,
  aid: readAid,
  amount: readAmount,
  archive: readArchive,
  area: readArea,
  areaUnit: readAreaUnit,
  bath: readBath,
  bathEnds: readBathEnds,
  bottle: nameReader("bottle"),
  cause: readCause,
  chosen: readChosen,
  clock: readClock,
  complaint: readComplaint,
  container: readContainer,
  count: readCount,
  country: readCountry,
  degrees: readDegrees,
  delay: readDelay,
  difference: readDifference,
  dilution: readDilution,
  drain: readDrain,
  duration: readDuration,
  edge: readEdge,
  fill: readFill,
  filters: readFilters,
  film: readFilm,
  form: readForm,
  formula: readFormula,
  foul: readFoul,
  heat: readHeat,
  held: readHeld,
  inJug: readInJug,
  mass: readMass,
  massUnit: readMassUnit,
  mishap: readMishap,
  mixedDate: readDateOrUnknown,
  movement: readMovement,
  newName: readNewName,
  newRolls: readNewRolls,
  newTank: readNewTank,
  nextMorning: readNextMorning,
  none: readNone,
  nothing: readNothing,
  number: numberReader,
  pastDate: readPastDate,
  percent: readPercent,
  person: readPerson,
  place: readPlace,
  push: readStops,
  reading: readReading,
  reels: readReels,
  reference: readReference,
  rgb: readRgb,
  role: readRole,
  rolls: readRolls,
  repeats: readRepeats,
  seen: readSeen,
  serving: readServing,
  shareForm: readShareForm,
  repeatable: readRepeatableForm,
  sheet: nameReader("sheet"),
  sign: readLookSign,
  sinceDate: readSinceDate,
  solution: readBath,
  speed: readSpeed,
  symptom: readSymptom,
  tank: nameReader("tank"),
  task: readTask,
  temperature: readTemperature,
  text: readText,
  partName: readPartName,
  toppedUp: readToppedUp,
  traits: readTraits,
  verdict: readVerdict,
  volume: readVolume,
  volumeUnit: readVolumeUnit,
  when: readMoment,
  wholeBench: readWholeBench,
  word: readWord,
  yes: readYes,
};

/** Free text: the matcher may put the words as typed (`asTyped`) in the place of the value. */
export const takenAsTyped: ReadonlySet<ReaderName> = new Set([
  "archive",
  "word",
  "text",
  "task",
  "newName",
  "person",
]);
