import type { DiscordGatewayAdapterCreator } from "@discordjs/voice";
import type { BenchRecord } from "../../../conversation/record.ts";
import type { Bench } from "../../../domain/session/bench.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import type { Clock } from "../../../platform/clock.ts";
import type { Reply } from "../../../reply/reply.ts";
import type { Speaker } from "../rooms/room.ts";
import type { VoiceLibrary } from "./library.ts";
import { type Line, type Lost, openLine } from "./line.ts";
import { listenTo } from "./listening.ts";
import { createMouth } from "./mouth.ts";
import type { Attend, Attendant, BenchCall } from "./ports.ts";

export type CallParts = {
  readonly library: VoiceLibrary;
  readonly guild: string;
  readonly channel: string;
  readonly bot: string;
  readonly adapter: DiscordGatewayAdapterCreator;
  readonly attend: Attend;
  /** Real time. */
  readonly wire: Clock;
  /** The voice server has so long to answer, ms. */
  readonly patience: number;
  readonly record: () => BenchRecord;
  /** The benches' time. */
  readonly now: () => Instant;
  readonly speakerOf: (user: string) => Speaker | undefined;
  readonly ask: BenchCall["ask"];
  readonly complain: BenchCall["complain"];
  /** Nothing that is said can be made out, also not on a line begun anew. */
  readonly onDeaf: () => void;
  /** It ended, and nobody here ended it. */
  readonly onLost: (why: Lost) => void;
  readonly onFault: (error: unknown) => void;
};

export type Call = {
  /** Whether a line came about; told once. */
  readonly opened: Promise<true | Lost | { readonly kind: "left" }>;
  /** The bot's own voice state. */
  seen(channel: string | undefined): void;
  told(replies: readonly Reply[], bench: Bench): void;
  leave(): void;
};

/** Deaf again within so long, ms, after a line was begun anew for it: that does not help. */
const DEAF_AGAIN = 60_000;

/** One bench in one voice channel: the line, the ears and the mouth. */
export async function openCall(parts: CallParts): Promise<Call> {
  const { library, wire, record, speakerOf, onDeaf, onLost, onFault } = parts;
  const opened = Promise.withResolvers<true | Lost | { readonly kind: "left" }>();
  let listening: { close(): void } | undefined;
  let deafAt = Number.NEGATIVE_INFINITY;
  let over = false;
  let line: Line | undefined;

  const mouth = createMouth({
    Opus: library.Opus,
    wire,
    send: (frame) => line?.send(frame) ?? false,
    pause: () => line?.pause(),
    isMuted: () => record().bench.mode === "dark",
    onFault,
  });
  const { ask, complain, now } = parts;
  const attendant: Attendant = await parts.attend({ mouth, record, now, ask, complain });

  const guarded = (act: () => void): void => {
    try {
      act();
    } catch (error) {
      onFault(error);
    }
  };
  const ears: Attendant["ears"] = {
    hear: (speaker, pcm) => guarded(() => attendant.ears.hear(speaker, pcm)),
    end: (speaker) => guarded(() => attendant.ears.end(speaker)),
  };

  const close = (): void => {
    if (over) return;
    over = true;
    listening?.close();
    mouth.close();
    guarded(() => attendant.close());
  };

  const deaf = () => {
    const now = wire.monotonic();
    if (now - deafAt < DEAF_AGAIN || line?.renew() !== true) return onDeaf();
    deafAt = now;
  };

  line = openLine({
    voice: library.voice,
    guild: parts.guild,
    channel: parts.channel,
    group: parts.bot,
    adapter: parts.adapter,
    wire,
    patience: parts.patience,
    onOpen(receiver) {
      listening = listenTo({ receiver, library, wire, ears, speakerOf, onDeaf: deaf });
      opened.resolve(true);
    },
    onClosed() {
      listening?.close();
      listening = undefined;
    },
    onLost(why) {
      close();
      opened.resolve(why);
      onLost(why);
    },
    onFault,
  });

  return {
    opened: opened.promise,
    seen: (channel) => line?.seen(channel),
    told: (replies, bench) => {
      if (!over) guarded(() => attendant.told(replies, bench));
    },
    leave() {
      close();
      opened.resolve({ kind: "left" });
      line?.leave();
    },
  };
}
