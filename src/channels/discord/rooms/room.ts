import type { Standing } from "../../../commands/permissions.ts";
import { planLines } from "../../../commands/run-lines.ts";
import type { BenchKeeper } from "../../../conversation/bench-keeper.ts";
import type { Benches } from "../../../conversation/benches.ts";
import { openQuestion } from "../../../conversation/turn.ts";
import type { Bench } from "../../../domain/session/bench.ts";
import { isLive, type Run } from "../../../domain/session/run.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import type { Files } from "../../../export/files.ts";
import type { Reply } from "../../../reply/reply.ts";
import type { Api } from "../delivery/api.ts";
import type { Attempts } from "../delivery/attempts.ts";
import type { DirectMessages } from "../delivery/direct-messages.ts";
import type { Failure } from "../delivery/failure.ts";
import { createOutbox, type Outbox } from "../delivery/outbox.ts";
import type { Sender } from "../delivery/sender.ts";
import type { Kept } from "../directory/kept.ts";
import type { Place } from "../directory/record.ts";
import { isMember } from "../people/membership.ts";
import type { RolesOf } from "../people/roles-of.ts";
import type { MessagePayload } from "../words/message-payload.ts";
import { renderReply } from "../words/render-reply.ts";
import { createStatusLane } from "./status-lane.ts";
import { newRuns, planPosts, postsOf } from "./tell.ts";

/** What somebody said, as the conversation takes it. */
export type Said =
  | { readonly text: string; readonly saidAt?: Instant | undefined }
  | { readonly command: string; readonly fields: Readonly<Record<string, unknown>> };

/** Who speaks: their id, what the bench calls them, and how they stand to it. */
export type Speaker = {
  readonly id: string;
  readonly name: string;
  readonly standing: Extract<Standing, "owner" | "member">;
};

/** One bench in Discord. */
export type Room = {
  readonly key: string;
  readonly keeper: BenchKeeper;
  readonly place: Kept<Place>;
  readonly outbox: Outbox;
  now(): Instant;
  /**
   * A message and its answer, in the bench's words; a run it starts is posted and owned. Messages
   * are taken one after the other, and `read` tells what was said when its turn comes, so that a
   * button pressed twice is not good twice.
   */
  hear(read: () => Said | { readonly refusal: Reply }, speaker: Speaker): Promise<Reply>;
  /** An answer as messages, with the buttons of the question it asks this person. */
  render(reply: Reply, who: string, ephemeral?: boolean): readonly MessagePayload[];
  /** An archive of this bench, to hand it on. */
  archive(name: string): Promise<Uint8Array>;
  /** Where an archive of this bench that was handed in is put. */
  readonly files: Pick<Files, "receive" | "dropReceived">;
  /** Everything that may have changed while nobody was connected is looked at again. */
  refresh(): void;
  /** Resolves once what was begun is done and kept. */
  idle(): Promise<void>;
  close(): void;
};

export type RoomParts = {
  readonly key: string;
  readonly keeper: BenchKeeper;
  readonly place: Kept<Place>;
  readonly files: Files;
  readonly benches: Benches;
  readonly sender: Sender;
  readonly api: Api;
  readonly direct: DirectMessages;
  readonly attempts: Attempts;
  readonly rolesOf: RolesOf;
  /** Whether this process hears direct messages. */
  readonly hearsDirect: boolean;
  /** A live message is edited this often at most, ms. */
  readonly editEvery?: number | undefined;
  readonly onChannelTrouble: (failure: Failure) => void;
  /** What came due, at its moment, for whoever tells it aloud. */
  readonly aloud?: ((replies: readonly Reply[], bench: Bench) => void) | undefined;
  /** A word was said at the bench. */
  readonly onWord?: (() => void) | undefined;
  readonly onFault: (error: unknown) => void;
};

export function openRoom(parts: RoomParts): Room {
  const { key, keeper, place, benches, sender, api, direct, onFault } = parts;
  const { onChannelTrouble, editEvery } = parts;
  const { now } = benches;
  const outbox = createOutbox({
    place,
    sender,
    api,
    direct,
    attempts: parts.attempts,
    hearsDirect: parts.hearsDirect,
    isStillMember: async (id) => {
      const roles = await parts.rolesOf(place.value.guild, id);
      return roles !== "gone" && isMember(place.value, { id, roles });
    },
    now,
    onChannelTrouble,
    onLess: () => sender.wake(statuses),
    onFault,
  });
  const statuses = createStatusLane({ key, keeper, place, api, now, editEvery, onFault });
  const bell = benches.join(key, {
    keeper,
    tell: async (replies, at, bench) => {
      parts.aloud?.(replies, bench);
      const { closed } = place.value;
      if (closed === "by an administrator" || closed === "bot removed") return;
      // A disk that cannot be written to holds up no cue: it is in memory and on its way.
      await outbox.post(postsOf(replies, at, bench, key, place.value)).catch(onFault);
    },
    onFault,
    onChange: () => sender.wake(statuses),
  });

  let before: Promise<void> = Promise.resolve();

  /** Runs begun in the dark: their plans are posted when the light is on. */
  const unplanned = new Set<string>();

  const postPlans = (fresh: readonly Run[]): void => {
    const { bench } = keeper.record;
    for (const { id } of fresh) unplanned.add(id);
    if (bench.mode === "dark") return;
    const runs = Object.values(bench.runs).filter((run) => isLive(run) && unplanned.has(run.id));
    unplanned.clear();
    const at = bell.now();
    outbox.post(runs.flatMap((run) => planPosts(run, at, bench, place.value))).catch(onFault);
  };

  /** A run that was not there before is theirs who spoke. @returns the answer without its plan */
  const own = (reply: Reply, speaker: Speaker): Reply => {
    const { bench } = keeper.record;
    const fresh = newRuns(bench, place.value);
    if (fresh.length === 0 && unplanned.size === 0) return reply;
    const owners = Object.fromEntries(fresh.map(({ id }) => [id, speaker.id]));
    place.change((value) => ({ ...value, owners: { ...value.owners, ...owners } })).catch(onFault);
    const at = bell.now();
    postPlans(fresh);
    sender.wake(statuses);
    // The plan is a message of its own, for everyone and in everyone's time.
    const planned = new Set(fresh.flatMap((run) => planLines(bench, run, at)));
    return { ...reply, lines: reply.lines.filter((line) => !planned.has(line)) };
  };

  return {
    key,
    keeper,
    place,
    outbox,
    now: bell.now,
    hear(read, speaker) {
      const answered = before.then(async () => {
        const said = read();
        parts.onWord?.();
        if ("refusal" in said) return said.refusal;
        return own(
          await bell.take({ ...said, who: speaker.name, standing: speaker.standing }),
          speaker,
        );
      });
      before = answered.then(
        () => undefined,
        () => undefined,
      );
      return answered;
    },
    render(reply, who, ephemeral = false) {
      const { record } = keeper;
      const now = bell.now();
      const { bench } = record;
      return renderReply(reply, {
        bench,
        benchKey: key,
        mode: bench.mode,
        now,
        question: openQuestion(record, who, now),
        ephemeral,
      });
    },
    archive: (name) => parts.files.read(name),
    files: parts.files,
    refresh() {
      outbox.wake();
      sender.wake(statuses);
    },
    async idle() {
      await keeper.idle();
      await place.idle();
    },
    close: () => bell.stop(),
  };
}
