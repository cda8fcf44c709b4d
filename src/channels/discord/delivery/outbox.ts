import { Routes } from "discord-api-types/v10";
import { OwnFault } from "../../../platform/fault.ts";
import type { Kept } from "../directory/kept.ts";
import type { Place, Post } from "../directory/record.ts";
import type { Api } from "./api.ts";
import type { Attempts } from "./attempts.ts";
import type { DirectMessages } from "./direct-messages.ts";
import type { Failure } from "./failure.ts";
import { routeKey } from "./limits.ts";
import { type NextPost, nextPost } from "./next-post.ts";
import type { Lane, Send, Sender } from "./sender.ts";

export type NewPost = Omit<Post, "nonce" | "batch">;

export type OutboxParts = {
  readonly place: Kept<Place>;
  readonly sender: Sender;
  readonly api: Api;
  readonly direct: DirectMessages;
  readonly attempts: Attempts;
  /** The bench's time, by which a post is late. */
  readonly now: () => number;
  /** The bench's channel takes nothing from the bot, or is no more. */
  readonly onChannelTrouble: (failure: Failure) => void;
  /** Something is out, or goes elsewhere. */
  readonly onLess: () => void;
  readonly onFault: (error: unknown) => void;
};

export type Outbox = {
  /** Takes posts to be sent in order; resolves once they would survive a crash. */
  post(posts: readonly NewPost[]): Promise<void>;
  /** The bench's channel is no more: cues go to whom they are for, if told; the rest is dropped. */
  leaveChannel(how: { readonly tell: boolean }): void;
  /** Something may have changed: looks again at everything that waits, the channel first. */
  wake(): void;
};

/** A channel that takes nothing from the bot is tried again after so long, ms. */
const NO_PERMISSION_WAIT = 60_000;
/** So many posts wait at most: the oldest that are no cues go first. */
const MOST = 500;

const keyOf = (to: Post["to"]): string => ("channel" in to ? `c${to.channel}` : `u${to.user}`);

/**
 * What is on its way to one bench's people, kept on disk until Discord has taken it. For each place
 * it goes to there is a lane of cues and one of everything else, each in order.
 */
export function createOutbox(parts: OutboxParts): Outbox {
  const { place, sender, api, direct, attempts, now, onFault } = parts;
  const lanes = new Map<string, Lane>();
  /** Until then the bench's channel takes nothing: cues go to whom they are for. */
  let mutedUntil = 0;

  const change = (
    make: (outbox: readonly Post[]) => readonly Post[],
    durable = true,
  ): Promise<void> =>
    place.change(
      (value) => {
        const outbox = make(value.outbox);
        return outbox === value.outbox ? value : { ...value, outbox: [...outbox] };
      },
      { durable },
    );
  /** Memory counts at once; a disk that cannot be written to is told of, and holds up nothing. */
  const changeNow = (make: (outbox: readonly Post[]) => readonly Post[], durable = true): void => {
    change(make, durable).catch(onFault);
    parts.onLess();
  };
  const remove = (nonces: readonly string[]): void => {
    // What a power cut brings back goes out under its old nonce.
    changeNow((outbox) => outbox.filter(({ nonce }) => !nonces.includes(nonce)), false);
    for (const nonce of nonces) attempts.delete(nonce);
  };
  /** A message of ours was seen: whatever became of the answer, it was posted. */
  const seen = (nonce: string): void => {
    const post = place.value.outbox.find((one) => one.nonce === nonce);
    const together = place.value.outbox.filter(
      (one) => one.nonce === nonce || (post?.batch !== undefined && one.batch === post.batch),
    );
    if (together.length > 0) remove(together.map((one) => one.nonce));
  };
  const reroute = (posts: readonly Post[], make: (post: Post) => Post | undefined): void => {
    const nonces = posts.map(({ nonce }) => nonce);
    changeNow((outbox) =>
      outbox.flatMap((post) => (nonces.includes(post.nonce) ? (make(post) ?? []) : [post])),
    );
    wake();
  };

  const sendTo = async (to: Post["to"], next: NextPost, signal: AbortSignal): Promise<unknown> => {
    const channel = "channel" in to ? to.channel : await direct.channelOf(to.user, signal);
    const body = { ...next.payload, nonce: next.nonce, enforce_nonce: true };
    return api.request("post", Routes.channelMessages(channel) as `/${string}`, { body, signal });
  };

  const keyOfRoute = (to: Post["to"]): string => {
    const channel = "channel" in to ? to.channel : direct.known(to.user);
    return routeKey(
      "POST",
      channel === undefined ? "/users/@me/channels" : Routes.channelMessages(channel),
    );
  };

  const waitingFor = (to: Post["to"], rank: Post["rank"]): readonly Post[] =>
    place.value.outbox.filter((post) => post.rank === rank && keyOf(post.to) === keyOf(to));

  const refused = (
    lane: Post["rank"],
    to: Post["to"],
    { posts }: NextPost,
    failure: Failure,
  ): number | undefined => {
    if (failure.kind === "refused") {
      onFault(new OwnFault(`Discord would not take a message: ${failure.what}`));
      remove(posts.map(({ nonce }) => nonce));
      return undefined;
    }
    if ("user" in to) {
      direct.forget(to.user);
      reroute(posts, instead);
      return undefined;
    }
    parts.onChannelTrouble(failure);
    const gone = failure.kind === "gone";
    mutedUntil = now() + NO_PERMISSION_WAIT;
    // What waits behind it would fare no better.
    reroute(waitingFor(to, lane), (post) => elsewhere(post) ?? (gone ? undefined : post));
    return waitingFor(to, lane).length > 0 ? NO_PERMISSION_WAIT : undefined;
  };

  const makeLane = (to: Post["to"], rank: Post["rank"]): Lane => {
    const lane: Lane = {
      rank,
      next(): Send | undefined {
        if ("channel" in to && place.value.closed !== undefined) return undefined;
        const next = nextPost(waitingFor(to, rank), now(), attempts);
        if (next === undefined) return undefined;
        if (next.posts.length > 1 && next.posts.some(({ batch }) => batch !== next.nonce)) {
          // Which posts are one message is on disk before the message can exist.
          markBatch(next, () => sender.wake(lane));
          return undefined;
        }
        return {
          key: keyOfRoute(to),
          perform(signal) {
            attempts.set(next.nonce, () => seen(next.nonce));
            return sendTo(to, next, signal);
          },
          accepted() {
            if ("channel" in to) mutedUntil = 0;
            remove(next.posts.map(({ nonce }) => nonce));
          },
          refused: (failure) => refused(rank, to, next, failure),
        };
      },
    };
    return lane;
  };

  const markBatch = ({ posts, nonce }: NextPost, done: () => void): void => {
    const nonces = posts.map((post) => post.nonce);
    change((outbox) =>
      outbox.map((post) => (nonces.includes(post.nonce) ? { ...post, batch: nonce } : post)),
    )
      .catch(onFault)
      .finally(done);
  };

  const laneOf = ({ to, rank }: Pick<Post, "to" | "rank">): Lane => {
    const key = `${rank} ${keyOf(to)}`;
    const lane = lanes.get(key) ?? makeLane(to, rank);
    lanes.set(key, lane);
    return lane;
  };

  const wake = (): void => {
    for (const lane of new Set(place.value.outbox.map(laneOf))) sender.wake(lane);
  };

  // One goes at a time, so that of what was left on disk only the first of each lane may be out.
  const firsts = new Map<string, Post>();
  for (const post of place.value.outbox) {
    const key = `${post.rank} ${keyOf(post.to)}`;
    if (!firsts.has(key)) firsts.set(key, post);
  }
  for (const { nonce } of firsts.values()) attempts.set(nonce, () => seen(nonce));

  return {
    async post(posts) {
      if (posts.length === 0) return;
      let made: readonly Post[] = [];
      const kept = place.change((value) => {
        const { channel, nextPost: first } = value;
        const muted = now() < mutedUntil;
        made = posts.map((post, index) => {
          const fresh = { ...post, nonce: nonceOf(channel, first + index) };
          return (muted && "channel" in post.to ? elsewhere(fresh) : undefined) ?? fresh;
        });
        const outbox = withinBounds([...value.outbox, ...made]);
        return { ...value, nextPost: first + posts.length, outbox };
      });
      try {
        await kept;
      } finally {
        for (const lane of new Set(made.map(laneOf))) sender.wake(lane);
      }
    },
    leaveChannel({ tell }) {
      const left = place.value.outbox.filter(({ to }) => "channel" in to);
      reroute(left, tell ? elsewhere : () => undefined);
    },
    wake() {
      mutedUntil = 0;
      wake();
    },
  };
}

const instead = ({ instead: to, ...post }: Post): Post | undefined =>
  to === undefined ? undefined : { ...post, to };

/** A cue goes to whom it is for; anything else where it was told to go instead. */
const elsewhere = (post: Post): Post | undefined =>
  post.rank === "cue" && post.owner !== undefined
    ? { ...post, to: { user: post.owner } }
    : instead(post);

/** Unlike any other of this bot's; 25 characters at most. */
const nonceOf = (channel: string, number: number): string =>
  `${BigInt(channel).toString(36)}-${number.toString(36)}`;

function withinBounds(outbox: readonly Post[]): Post[] {
  let excess = outbox.length - MOST;
  if (excess <= 0) return [...outbox];
  return outbox.filter(({ rank }) => rank === "cue" || excess-- <= 0);
}
