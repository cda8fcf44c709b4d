import { join } from "node:path";
import type { Command } from "../../commands/define-command.ts";
import { BenchKeeper } from "../../conversation/bench-keeper.ts";
import type { Benches } from "../../conversation/benches.ts";
import type { LookBack } from "../../conversation/look-back/look-back.ts";
import type { BenchRecord } from "../../conversation/record.ts";
import { filesIn } from "../../export/files.ts";
import type { Level } from "../../log/log.ts";
import { type Clock, systemClock } from "../../platform/clock.ts";
import { faultWords } from "../../platform/fault.ts";
import type { FileSystem } from "../../platform/file-system.ts";
import type { DiscordSettings } from "../../settings.ts";
import { openFileStore } from "../../store/file-store.ts";
import { migrate } from "../../store/migrations/migrate.ts";
import type { Store } from "../../store/store.ts";
import { StoreError } from "../../store/store-error.ts";
import { connect } from "./connection/connect.ts";
import { createGuilds } from "./connection/guilds.ts";
import { createApi } from "./delivery/api.ts";
import type { Attempts } from "./delivery/attempts.ts";
import { createChat } from "./delivery/chat.ts";
import { createDirectMessages } from "./delivery/direct-messages.ts";
import { Limits } from "./delivery/limits.ts";
import { createSender } from "./delivery/sender.ts";
import { Kept } from "./directory/kept.ts";
import {
  type DirectoryRecord,
  type Front,
  newFront,
  type Place,
  recordSchema,
} from "./directory/record.ts";
import { Budget, TYPING } from "./people/budget.ts";
import { createRolesOf } from "./people/roles-of.ts";
import { Seen } from "./people/seen.ts";
import { openRoom, type Room } from "./rooms/room.ts";
import { Rooms } from "./rooms/rooms.ts";
import { sayFarewell } from "./rooms/say-farewell.ts";
import { Calls } from "./voice/calls.ts";
import { missingPackages } from "./voice/packages.ts";
import type { Attend } from "./voice/ports.ts";

export type DiscordParts = {
  readonly settings: DiscordSettings;
  /** The data folder. */
  readonly data: string;
  /** On what the channel's own records are kept; missing: on the machine's disk. */
  readonly disk?: FileSystem | undefined;
  /** IANA zone of a bench that is opened without one. */
  readonly zone: string;
  readonly commands: readonly Command[];
  readonly store: Store<BenchRecord>;
  /** For questions about a long past; missing: they are answered where cues are given. */
  readonly lookBack?: LookBack | undefined;
  readonly benches: Benches;
  /** The benches' clock. */
  readonly clock: Clock;
  /** The network's clock, which is always real. */
  readonly wire?: Clock | undefined;
  /** For whoever runs the program: plain sentences, never a token. */
  readonly note: (sentence: string, level?: Level) => void;
  /** What listens and speaks in calls; missing on a machine without a voice. */
  readonly attend?: Attend | undefined;
  /** A voice server has so long to answer, real ms; missing: ten seconds. */
  readonly patience?: number | undefined;
  /** How often live messages are edited and shards identify, ms; missing: as Discord likes it. */
  readonly pace?: { readonly edit?: number; readonly identify?: number } | undefined;
};

export type Discord = {
  /** Resolves, with what to mend, once Discord will not have the bot back as it is. */
  readonly over: Promise<string>;
  /** Resolves once the bot is connected for the first time. */
  readonly connected: Promise<void>;
  /** Resolves once nothing is under way: neither on a bench nor to Discord. */
  idle(): Promise<void>;
  /** Says at each bench with an open run that the program leaves; takes a few seconds at most. */
  sayFarewell(): Promise<void>;
  close(): Promise<void>;
};

/** The id under which the directory keeps what belongs to no bench. */
const FRONT = "front";

/** Brings the benches of a data folder into Discord. @throws StoreError when the folder is in use */
export async function startDiscord(parts: DiscordParts): Promise<Discord> {
  const { settings, benches, clock, wire = systemClock, commands, note, pace } = parts;
  const directory = await openFileStore<DirectoryRecord>({
    directory: join(parts.data, "discord"),
    schema: recordSchema,
    ...(parts.disk === undefined ? {} : { files: parts.disk }),
    // Its records have versions of their own.
    migrate: (record) => migrate(record, []),
  });
  const onFault = (error: unknown): void => {
    note(error instanceof StoreError ? error.message : faultWords(error), "error");
    if (error instanceof Error) note(error.stack ?? error.message, "debug");
  };
  const limits = new Limits();
  // Setting the wall clock holds up nothing.
  const now = (): number => wire.monotonic();
  const api = createApi({ settings, limits, clock: wire, now });
  const over = Promise.withResolvers<string>();
  const sender = createSender({
    clock: wire,
    limits,
    now,
    onFault,
    onBadToken: () => connection.badToken(),
  });
  const direct = createDirectMessages(api);
  const attempts: Attempts = new Map();
  const rolesOf = createRolesOf(api, benches.now);
  const rooms = new Rooms();
  const guilds = createGuilds(rooms, onFault);

  const chat = createChat(sender, api, now, onFault);
  const calls = new Calls({
    attend: missingPackages().length === 0 ? parts.attend : undefined,
    api,
    chat,
    clock,
    wire,
    patience: parts.patience,
    onFault,
  });

  const join_ = async (key: string, place: Kept<Place>, zone: string): Promise<Room> => {
    // Archives and pictures of one bench are no other's to see.
    const files = filesIn(join(parts.data, "discord", "files", key));
    const { keeper, notices } = await BenchKeeper.open(
      key,
      { zone },
      parts.store,
      commands,
      files,
      parts.lookBack,
    );
    for (const notice of notices) note(notice);
    const room = openRoom({
      key,
      keeper,
      place,
      files,
      benches,
      sender,
      api,
      direct,
      attempts,
      rolesOf,
      hearsDirect: settings.shards === undefined || settings.shards.includes(0),
      editEvery: pace?.edit,
      onChannelTrouble: (failure) => {
        if (failure.kind === "gone") guilds.channelGone(place.value.channel);
        else guilds.mayNotWrite(room);
      },
      aloud: (replies, bench) => calls.told(key, replies, bench),
      onWord: () => calls.touched(key),
      onFault,
    });
    rooms.add(room);
    return room;
  };

  const front = await openFront(directory);
  for (const id of await directory.list()) {
    const { value, notices } = await directory.load(id);
    for (const notice of notices) note(notice);
    if (value?.kind === "place")
      await join_(id, keptPlace(id, directory, value, value), parts.zone);
  }

  const desk = {
    rooms,
    commands,
    api,
    chat,
    calls,
    direct,
    attempts,
    front,
    rolesOf,
    isOneOfSeveral: (settings.shards?.length ?? 0) < (settings.shardCount ?? 0),
    clock,
    now: benches.now,
    budget: new Budget(),
    aidBudget: new Budget(),
    typingBudget: new Budget(TYPING),
    seen: new Seen(),
    heldBack: new Map(),
    typed: new Map(),
    openRoom: async (key: string, place: Place, zone: string | undefined): Promise<Room> => {
      await directory.load(key);
      const kept = keptPlace(key, directory, place, undefined);
      await kept.change((value) => value);
      return join_(key, kept, zone ?? parts.zone);
    },
    onFault,
  };
  const connection = connect({
    settings,
    limits,
    wire,
    now,
    api,
    sender,
    guilds,
    desk,
    identifyEvery: pace?.identify,
    note,
    onOver: over.resolve,
  });
  for (const room of rooms.all()) room.refresh();
  const idle = async (): Promise<void> => {
    for (const room of rooms.all()) await room.idle();
    await sender.idle();
  };

  return {
    over: over.promise,
    connected: connection.connected,
    idle,
    sayFarewell: () => sayFarewell(rooms.all(), api, onFault),
    async close() {
      calls.close();
      await connection.close();
      sender.stop();
      for (const room of rooms.all()) {
        room.close();
        await room.idle();
      }
      await directory.close();
    },
  };
}

/** Only records of one kind are written under an id: the store's other kinds never come up. */
const keptPlace = (
  id: string,
  store: Store<DirectoryRecord>,
  value: Place,
  saved: Place | undefined,
): Kept<Place> => new Kept<Place>(id, store as unknown as Store<Place>, value, saved);

async function openFront(store: Store<DirectoryRecord>): Promise<Kept<Front>> {
  const { value } = await store.load(FRONT);
  const saved = value?.kind === "front" ? value : undefined;
  return new Kept<Front>(FRONT, store as unknown as Store<Front>, saved ?? newFront(), saved);
}
