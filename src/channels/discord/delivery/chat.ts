import { Routes } from "discord-api-types/v10";
import { OwnFault } from "../../../platform/fault.ts";
import type { MessagePayload } from "../words/message-payload.ts";
import type { Api } from "./api.ts";
import { UNKNOWN_MESSAGE } from "./failure.ts";
import { routeKey } from "./limits.ts";
import type { Lane, Sender } from "./sender.ts";

/** A picture, a document or an archive beside the words. */
export type Attachment = { readonly name: string; readonly data: Uint8Array };

/** An answer in a channel. It is of no use much later, so it is not kept over a restart. */
export type Line = {
  readonly payload: MessagePayload;
  /** Unlike any other of this bot's. */
  readonly nonce: string;
  /** The message it answers, where that may be shown. */
  readonly answers?: string | undefined;
  readonly attached?: Attachment | undefined;
};

export type Chat = {
  say(channel: string, lines: readonly Line[]): void;
};

/** An answer that could not be given for so long, ms, is dropped. */
const STALE = 60_000;
/** So many answers wait for one channel at most. */
const MOST = 50;

type Waiting = Line & { readonly since: number };

/** Answers to what was typed in channels, each channel's in order. */
export function createChat(
  sender: Sender,
  api: Api,
  now: () => number,
  onFault: (error: unknown) => void,
): Chat {
  const lanes = new Map<string, { readonly lane: Lane; readonly queue: Waiting[] }>();

  const make = (channel: string) => {
    const queue: Waiting[] = [];
    const path = Routes.channelMessages(channel) as `/${string}`;
    const key = routeKey("POST", path);
    const lane: Lane = {
      rank: "other",
      next(at) {
        while (queue[0] !== undefined && at - queue[0].since > STALE) queue.shift();
        const [line] = queue;
        if (line === undefined) {
          lanes.delete(channel);
          return undefined;
        }
        const { payload, nonce, answers, attached } = line;
        const body = {
          ...payload,
          nonce,
          enforce_nonce: true,
          ...(answers === undefined
            ? {}
            : { message_reference: { message_id: answers, fail_if_not_exists: false } }),
        };
        const files = attached === undefined ? undefined : [attached];
        return {
          key,
          perform: (signal) => api.request("post", path, { body, files, signal }),
          accepted: () => void queue.shift(),
          refused(failure) {
            queue.shift();
            // Without the history of a channel nothing in it can be answered: said without it then.
            const apart = failure.kind === "no-permission" || failure.kind === "gone";
            const plain = answers !== undefined && apart;
            if (plain || (failure.kind === "gone" && failure.code === UNKNOWN_MESSAGE)) {
              queue.unshift({ ...line, answers: undefined });
            } else if (failure.kind === "refused") {
              onFault(new OwnFault(`Discord would not take an answer: ${failure.what}`));
            }
            return undefined;
          },
        };
      },
    };
    return { lane, queue };
  };

  return {
    say(channel, lines) {
      if (lines.length === 0) return;
      const found = lanes.get(channel) ?? make(channel);
      lanes.set(channel, found);
      const { lane, queue } = found;
      queue.push(...lines.map((line) => ({ ...line, since: now() })));
      queue.splice(0, Math.max(0, queue.length - MOST));
      sender.wake(lane);
    },
  };
}
