import { type Bath, isDeveloper, type Sheet } from "../domain/process/sheet.ts";

/** What there is to choose from where a black-and-white sheet leaves the developer's time open. */
export const publishedTimes = (sheet: Sheet, bath: Bath): readonly string[] =>
  isDeveloper(bath.kind) && sheet.process === "black-and-white"
    ? ["Or choose a published table: say published times."]
    : [];
