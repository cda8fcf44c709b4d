const load = async () => {
  const [voice, opus] = await Promise.all([
    import("@discordjs/voice"),
    import("opusscript"),
    // Loaded by the voice library itself, which goes on without the first and fails only once it speaks.
    import("@noble/ciphers/chacha.js"),
    import("@snazzah/davey"),
  ]);
  return { voice, Opus: opus.default };
};

/** What a call is made with. */
export type VoiceLibrary = Awaited<ReturnType<typeof load>>;

/** Loads what a call needs, at the first call. @returns undefined when something of it is not there */
export const loadLibrary = (): Promise<VoiceLibrary | undefined> => load().catch(() => undefined);
