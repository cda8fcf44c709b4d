import { Routes } from "discord-api-types/v10";
import { z } from "zod";
import type { BenchKeeper } from "../../../conversation/bench-keeper.ts";
import type { Bench } from "../../../domain/session/bench.ts";
import { isLive, type Run } from "../../../domain/session/run.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import { OwnFault } from "../../../platform/fault.ts";
import type { Api } from "../delivery/api.ts";
import { TOO_MANY_OLD_EDITS } from "../delivery/failure.ts";
import { latestMessages, NONCE_GOOD_FOR } from "../delivery/latest-messages.ts";
import { routeKey } from "../delivery/limits.ts";
import type { Lane, Send } from "../delivery/sender.ts";
import type { Kept } from "../directory/kept.ts";
import type { Place } from "../directory/record.ts";
import type { MessagePayload } from "../words/message-payload.ts";
import { statusMessage } from "../words/status-message.ts";
import { findLiveMessage } from "./find-live-message.ts";

export type StatusParts = {
  readonly key: string;
  readonly keeper: BenchKeeper;
  readonly place: Kept<Place>;
  readonly api: Api;
  /** The bench's time. */
  readonly now: () => Instant;
  /** It is edited this often at most, ms: every time in it is absolute. */
  readonly editEvery?: number | undefined;
  readonly onFault: (error: unknown) => void;
};

/** How often it is edited at most, ms, unless told. */
const PACE = 5000;
/** Edits of messages older than an hour are few: before that a new one takes over, ms. */
const TAKE_OVER = 50 * 60_000;
/** After a refusal it is tried again so much later, ms. */
const REFUSED = 60_000;

const posted = z.object({ id: z.string() });
type Status = Place["statuses"][string];

const without = <T>(all: Readonly<Record<string, T>>, id: string): Record<string, T> => {
  const { [id]: _, ...others } = all;
  return others;
};

/** What was last shown of a run, and when. */
type Shown = { readonly text: string; readonly at: number };

/**
 * The live message of each run of one bench: made when the run is planned, edited when something
 * of it changed, left behind when the run is over. It waits for everything else.
 */
export function createStatusLane(parts: StatusParts): Lane {
  const { key, keeper, place, api, now, editEvery = PACE, onFault } = parts;
  const shown = new Map<string, Shown>();

  const change = (make: (value: Place) => Place): void => {
    place.change(make).catch(onFault);
  };
  const forget = (run: string): void => {
    shown.delete(run);
    change((value) => {
      const { [run]: _, ...statuses } = value.statuses;
      const { [run]: __, ...owners } = value.owners;
      return { ...value, statuses, owners, making: without(value.making, run) };
    });
  };

  const create = (run: Run, payload: MessagePayload, at: number, old: Status | undefined): Send => {
    const { channel } = place.value;
    const path = Routes.channelMessages(channel) as `/${string}`;
    const before = place.value.making[run.id];
    const count = before ?? now();
    // One nonce for all tries at this message, over a restart too.
    const nonce = `s${key.slice(-8)}-${run.id}-${Math.floor(count / 1000).toString(36)}`.slice(
      0,
      25,
    );
    const body = { ...payload, nonce, enforce_nonce: true };
    let isThere = false;
    return {
      key: routeKey("POST", path),
      async perform(signal) {
        const tried = { ...place.value.making, [run.id]: count };
        if (before === undefined)
          await place.change((value) => ({ ...value, making: tried })).catch(onFault);
        // Nonces are only remembered for minutes.
        const isLong = before !== undefined && now() - before > NONCE_GOOD_FOR;
        const latest = isLong ? await latestMessages(api, channel, signal) : [];
        const there = findLiveMessage(latest, key, run.id);
        isThere = there !== undefined;
        return there ?? api.request("post", path, { body, signal });
      },
      accepted(answer) {
        const { id } = posted.parse(answer);
        shown.set(run.id, { text: isThere ? "" : JSON.stringify(payload), at });
        change((value) => ({
          ...value,
          statuses: { ...value.statuses, [run.id]: { message: id, channel, at: now() } },
          making: without(value.making, run.id),
        }));
        if (old !== undefined) removeOld(old);
      },
      refused: (failure) => {
        if (failure.kind === "refused") onFault(new OwnFault(`status refused: ${failure.what}`));
        return REFUSED;
      },
    };
  };

  /** Two live messages of one run would mislead. */
  const removeOld = ({ channel, message }: Status): void => {
    api.call("delete", Routes.channelMessage(channel, message)).catch(() => undefined);
  };

  const edit = (run: Run, payload: MessagePayload, at: number, status: Status): Send => {
    const path = Routes.channelMessage(status.channel, status.message) as `/${string}`;
    const { flags: _, ...body } = payload;
    return {
      key: routeKey("PATCH", path),
      perform: (signal) => api.request("patch", path, { body, signal }),
      accepted() {
        shown.set(run.id, { text: JSON.stringify(payload), at });
        if (!isLive(run)) forget(run.id);
      },
      refused(failure) {
        const isOld = failure.kind === "refused" && failure.code === TOO_MANY_OLD_EDITS;
        if (failure.kind !== "gone" && !isOld) return REFUSED;
        if (!isLive(run)) forget(run.id);
        else {
          change((value) => {
            const { [run.id]: __, ...statuses } = value.statuses;
            return { ...value, statuses };
          });
        }
        return undefined;
      },
    };
  };

  const show = (bench: Bench, run: Run, at: number): Send | { readonly at: number } | undefined => {
    const status = place.value.statuses[run.id];
    // Until it has an owner its plan is not on its way yet.
    const isKnown = isLive(run) && place.value.owners[run.id] !== undefined;
    if (status === undefined && !isKnown) return undefined;
    const payload = statusMessage(run, now(), { bench, benchKey: key });
    const isOld = status !== undefined && isLive(run) && now() - status.at > TAKE_OVER;
    const before = shown.get(run.id);
    if (!isOld && before?.text === JSON.stringify(payload)) return undefined;
    const free = (before?.at ?? Number.NEGATIVE_INFINITY) + editEvery;
    if (free > at) return { at: free };
    return status === undefined || isOld
      ? create(run, payload, at, status)
      : edit(run, payload, at, status);
  };

  return {
    rank: "edit",
    next(at) {
      const { bench } = keeper.record;
      // In the dark nothing lights up; what changed meanwhile is shown when the light is on.
      if (bench.mode === "dark" || place.value.closed !== undefined) return undefined;
      // The plan of a run stands above its live message; the lane is woken when it is out.
      if (place.value.outbox.some(({ rank }) => rank === "cue")) return undefined;
      const { statuses, owners, making } = place.value;
      // Gone with a bench that was forgotten or replaced: its number may come again.
      for (const id of new Set([statuses, owners, making].flatMap((all) => Object.keys(all)))) {
        if (bench.runs[id] === undefined) forget(id);
      }
      let later: number | undefined;
      for (const run of Object.values(bench.runs)) {
        const next = show(bench, run, at);
        if (next === undefined) continue;
        if (!("at" in next)) return next;
        later = Math.min(later ?? next.at, next.at);
      }
      return later === undefined ? undefined : { at: later };
    },
  };
}
