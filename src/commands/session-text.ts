import type { SessionStage } from "../domain/record/session-schema.ts";
import {
  type AnySession,
  beatsWords,
  bottleWords,
  filmWords,
  headWords,
  inWords,
  lookWords,
  peopleWords,
  plannedWords,
  readingWords,
  realWords,
  unverifiedWords,
} from "./session-words.ts";

/** A session as a person reads it in the chat, one line a thing. */
export function sessionLines(session: AnySession): readonly string[] {
  const { stages, bottles, deviations, odd, first_look, lesson, private: own } = session;
  return [
    headWords(session),
    `Film: ${filmWords(session)}`,
    ...stages.map((stage) => stageLine(session, stage)),
    ...stages.flatMap(({ bath, corrections }) =>
      corrections.map(({ kind, how }) => `${bath}, ${kind}: ${how}`),
    ),
    ...unverifiedWords(session),
    ...countLines(session),
    ...bottles.map((bottle) => `Bottle ${bottleWords(bottle)}`),
    ...(deviations.length === 0
      ? ["Deviations: none"]
      : deviations.map((deviation) => `Deviation: ${deviation}`)),
    ...odd.map((one) => `Odd: ${one}`),
    ...differentLines(session),
    ...(first_look === null ? [] : [`First look ${lookWords(first_look)}`]),
    `Lesson: ${lesson.text}`,
    ...peopleWords(session),
    ...(own === undefined ? [] : own.notes.map(({ text }) => `Note: ${text}`)),
  ];
}

function stageLine(session: AnySession, stage: SessionStage): string {
  if (stage.skipped) return `${stage.bath}: skipped`;
  const real = stage.real_s === null ? realWords(stage) : `real ${realWords(stage)}`;
  const from = stage.real_from_s === null ? "" : `, in ${inWords(session, stage.real_from_s)}`;
  const read =
    stage.readings.length === 0 ? "" : `, read ${stage.readings.map(readingWords).join(", ")} °C`;
  const beats = beatsWords(stage);
  return `${stage.bath}: planned ${plannedWords(stage)}, ${real}${from}${read}${beats === undefined ? "" : `; ${beats}`}`;
}

const countLines = ({ private: own, bottles, count_confirmed, state }: AnySession) =>
  own !== undefined && bottles.length > 0 && !count_confirmed && state !== "running"
    ? ["Count: unconfirmed, the higher figure stands; say count is right."]
    : [];

function differentLines({ answers, state, private: own }: AnySession): readonly string[] {
  if (own?.stopped_because != null) return [`Stopped: ${own.stopped_because}`];
  if (answers.different === "nothing") return state === "stopped" ? [] : ["Different: nothing"];
  return own?.different == null || own.different === "" ? [] : [`Different: ${own.different}`];
}
