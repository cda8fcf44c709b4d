import type { SessionSummary, SharedSession } from "../domain/record/session-schema.ts";

const written = (value: object): string => `${JSON.stringify(value, undefined, 2)}\n`;

/** A session as a JSON document that data/schemas/session-1.schema.json describes. */
export const sessionJson = (summary: SessionSummary): string => written(summary);

/** The same without what is private: data/schemas/shared-session-1.schema.json. */
export const sharedJson = (shared: SharedSession): string => written(shared);
