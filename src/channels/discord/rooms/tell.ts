import type { Bench } from "../../../domain/session/bench.ts";
import { isLive } from "../../../domain/session/run.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import type { Reply } from "../../../reply/reply.ts";
import type { NewPost } from "../delivery/outbox.ts";
import type { Member, Place } from "../directory/record.ts";
import { isMember } from "../people/membership.ts";
import { cueMessage } from "../words/cue-message.ts";
import { planMessage } from "../words/plan-message.ts";
import { type RenderContext, renderReply } from "../words/render-reply.ts";

type To = NewPost["to"];

/** A run that has no owner yet was made by whoever spoke last. */
export const newRuns = (bench: Bench, { owners }: Place) =>
  Object.values(bench.runs).filter((run) => isLive(run) && owners[run.id] === undefined);

/** Taken off the list, somebody is called by no cue and written to by no reminder any more. */
const isStillHere = (place: Place, id: string): boolean =>
  isMember(place, { id, roles: undefined });

/** Who started the run a cue is about; of a cue about several, whoever started one of them. */
function ownerOf(bench: Bench, place: Place, { facts }: Reply): string | undefined {
  const { owners } = place;
  const runs = Object.values(bench.runs).toSorted((one, other) => other.plannedAt - one.plannedAt);
  const run = runs.find(({ tank, id }) => tank === facts.tank && owners[id] !== undefined);
  const any = run ?? runs.find(({ id }) => owners[id] !== undefined);
  const owner = any === undefined ? undefined : owners[any.id];
  return owner !== undefined && isStillHere(place, owner) ? owner : undefined;
}

/** Where what is for all goes: the channel, and while there is none, to whoever opened it. */
const homeOf = ({ closed, channel, openedBy }: Place): To =>
  closed === undefined ? { channel } : { user: openedBy };

/** Where a reminder, or the daily message, goes: each person's own choice. */
function addressesOf(
  place: Place,
  { facts }: Reply,
): readonly Pick<NewPost, "to" | "instead" | "forMember">[] {
  const channel = homeOf(place);
  const members = Object.entries(place.members).filter(([id]) => isStillHere(place, id));
  const forMember = true as const;
  const direct = ([user]: [string, Member]) => ({ to: { user }, instead: channel, forMember });
  if (typeof facts.owner === "string") {
    const owner = members.find(([, { name }]) => name === facts.owner);
    if (owner === undefined) return [{ to: channel }];
    if (place.closed !== undefined) return [{ to: { user: owner[0] }, forMember }];
    return owner[1].reminders === "dm" ? [direct(owner)] : [{ to: channel }];
  }
  const apart = members.filter(([, { reminders }]) => reminders === "dm");
  // A role may hold people who have not said a word yet: they read the channel.
  const all = place.role === undefined && members.length > 0 && apart.length === members.length;
  return [
    ...(all ? [] : [{ to: channel }]),
    ...apart.map(([user]) => ({ to: { user }, forMember })),
  ];
}

/** What came due on a bench, as posts: cues in the channel, reminders where each person wants them. */
export function postsOf(
  replies: readonly Reply[],
  at: Instant,
  bench: Bench,
  benchKey: string,
  place: Place,
): readonly NewPost[] {
  const context: RenderContext = { bench, benchKey, mode: bench.mode, now: at };
  return replies.flatMap((reply): readonly NewPost[] => {
    if (reply.kind === "reminder") {
      const payloads = renderReply(reply, context);
      return addressesOf(place, reply).flatMap((address) =>
        payloads.map((payload) => ({ ...address, rank: "other" as const, payload, due: at })),
      );
    }
    const owner = ownerOf(bench, place, reply);
    return cueMessage(reply, { ...context, mention: owner }).map((payload) => ({
      rank: "cue" as const,
      ...(place.closed === undefined || owner === undefined
        ? { to: homeOf(place) }
        : { to: { user: owner }, forMember: true as const }),
      payload,
      due: at,
      owner,
    }));
  });
}

/** The plan of a run, before its first pour: in order with its cues. */
export const planPosts = (
  run: Bench["runs"][string],
  now: Instant,
  bench: Bench,
  place: Place,
): readonly NewPost[] =>
  planMessage(run, now, { bench }).map((payload) => ({
    rank: "cue",
    to: homeOf(place),
    payload,
    due: now,
  }));
