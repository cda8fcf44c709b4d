/** From what must be seen to on to what only helps to mend. */
export const levels = ["error", "warn", "info", "debug"] as const;
export type Level = (typeof levels)[number];

/** What may be set: the least important level that is written, or nothing at all. */
export const logSettings = ["silent", ...levels] as const;
export type LogSetting = (typeof logSettings)[number];

export const isWritten = (level: Level, setting: LogSetting): boolean =>
  logSettings.indexOf(level) <= logSettings.indexOf(setting);

/** Figures beside a sentence: never what somebody said. */
export type Facts = Readonly<Record<string, string | number | boolean>>;

/** Tells whoever runs the program. Above `debug` no line holds a word of the people at a bench. */
export type Log = {
  (level: Level, sentence: string, facts?: Facts): void;
  /** Resolves once all that was told is out. */
  flush(): Promise<void>;
};
