import type {
  DiscordGatewayAdapterCreator,
  VoiceConnection,
  VoiceConnectionState,
  VoiceReceiver,
} from "@discordjs/voice";
import type { Clock } from "../../../platform/clock.ts";
import type { VoiceLibrary } from "./library.ts";
import { shieldConnection, shieldNetworking } from "./shield.ts";

/** Why a call ended that nobody ended here. */
export type Lost =
  | { readonly kind: "put-out" }
  | { readonly kind: "no-answer" }
  | { readonly kind: "refused"; readonly code: number | undefined }
  | { readonly kind: "gone" };

export type LineParts = {
  readonly voice: VoiceLibrary["voice"];
  readonly guild: string;
  readonly channel: string;
  /** Apart from other bots of this process. */
  readonly group: string;
  readonly adapter: DiscordGatewayAdapterCreator;
  /** Real time. */
  readonly wire: Clock;
  /** The voice server has so long to answer, ms. */
  readonly patience: number;
  /** A line is there, for the first time or again; what belonged to the one before is gone. */
  readonly onOpen: (receiver: VoiceReceiver) => void;
  readonly onClosed: () => void;
  readonly onLost: (why: Lost) => void;
  readonly onFault: (error: unknown) => void;
};

/** The line to a voice channel, kept up as long as that can be done. */
export type Line = {
  /** Sends a frame now. @returns false while there is no line */
  send(frame: Buffer): boolean;
  pause(): void;
  /** The channel the bot is in by its own voice state; undefined when it was put out. */
  seen(channel: string | undefined): void;
  /** Begins anew. @returns false when that was tried too often */
  renew(): boolean;
  leave(): void;
};

/** After a line was there, it is tried so often to have it back. */
const TRIES = 3;
/** More rejoins than this in a minute lead nowhere: the library itself would go on for ever. */
const REJOINS = 5;
const MINUTE = 60_000;

/** A client that was let go of sends nothing more; for the library that is a refusal, not a fault. */
const guarded =
  (adapter: DiscordGatewayAdapterCreator): DiscordGatewayAdapterCreator =>
  (methods) => {
    const made = adapter(methods);
    return {
      sendPayload(payload) {
        try {
          return made.sendPayload(payload);
        } catch {
          return false;
        }
      },
      destroy: () => made.destroy(),
    };
  };

export function openLine(parts: LineParts): Line {
  const {
    voice,
    guild,
    channel,
    group,
    adapter,
    wire,
    patience,
    onOpen,
    onClosed,
    onLost,
    onFault,
  } = parts;
  const { VoiceConnectionStatus: Status } = voice;
  let connection: VoiceConnection | undefined;
  let where = channel;
  let isOpen = false;
  let triesLeft = 0;
  let rejoins: number[] = [];
  let code: number | undefined;
  let stopWatch: (() => void) | undefined;
  /** Our own going out, on the way in again, is not being put out. */
  let goingOut = false;

  const close = (): void => {
    if (isOpen) onClosed();
    isOpen = false;
  };

  /** @param tell  whether the gateway is told that we leave */
  const end = (tell: boolean): void => {
    stopWatch?.();
    stopWatch = undefined;
    close();
    const old = connection;
    connection = undefined;
    if (old !== undefined && old.state.status !== Status.Destroyed) old.destroy(tell);
  };

  const lose = (why: Lost): void => {
    end(why.kind !== "put-out");
    onLost(why);
  };

  const watch = () => {
    stopWatch ??= wire.setTimer(patience, () => {
      stopWatch = undefined;
      if (!renew()) lose({ kind: "no-answer" });
    });
  };

  /** Counts a rejoin. @returns whether that was one too many */
  const tooOften = (): boolean => {
    const now = wire.monotonic();
    rejoins = [...rejoins.filter((at) => now - at < MINUTE), now];
    return rejoins.length > REJOINS;
  };

  const rejoined = (made: VoiceConnection) => {
    if (!tooOften()) return;
    // The library rejoins from within this change of state: it is ended behind it.
    queueMicrotask(() => {
      if (connection === made) lose({ kind: "refused", code });
    });
  };

  const changed = (made: VoiceConnection, old: VoiceConnectionState, now: VoiceConnectionState) => {
    if (made !== connection) return;
    const before = "networking" in old ? old.networking : undefined;
    if (now.status === Status.Connecting && now.networking !== before) {
      now.networking.prependOnceListener("close", (closed) => {
        code = closed;
      });
      shieldNetworking(now.networking, (error) => {
        onFault(error);
        if (made === connection && !renew()) lose({ kind: "refused", code });
      });
    }
    if (now.status === old.status) return;
    switch (now.status) {
      case Status.Ready:
        stopWatch?.();
        stopWatch = undefined;
        goingOut = false;
        triesLeft = TRIES;
        close();
        isOpen = true;
        return onOpen(made.receiver);
      case Status.Destroyed:
        return lose({ kind: "gone" });
      case Status.Signalling:
        close();
        watch();
        return rejoined(made);
      default:
        close();
        watch();
    }
  };

  const connect = (): void => {
    const made = voice.joinVoiceChannel({
      guildId: guild,
      channelId: where,
      group,
      selfDeaf: false,
      selfMute: false,
      adapterCreator: guarded(adapter),
    });
    connection = made;
    shieldConnection(made);
    // What comes with an error ends in a change of state, or in nothing that matters.
    made.on("error", () => undefined);
    made.on("stateChange", (old, now) => changed(made, old, now));
    watch();
  };

  const renew = (): boolean => {
    if (triesLeft <= 0 || tooOften()) return false;
    triesLeft -= 1;
    goingOut = true;
    end(true);
    connect();
    return true;
  };

  connect();

  return {
    send(frame) {
      if (connection === undefined || !isOpen) return false;
      return connection.playOpusPacket(frame) === true;
    },
    pause: () => void connection?.setSpeaking(false),
    seen(now) {
      if (now !== undefined) where = now;
      else if (goingOut) goingOut = false;
      else if (connection !== undefined) lose({ kind: "put-out" });
    },
    renew,
    leave: () => end(true),
  };
}
