import {
  type APIModalInteractionResponseCallbackData,
  InteractionResponseType,
  MessageFlags,
  Routes,
} from "discord-api-types/v10";
import type { Clock } from "../../../platform/clock.ts";
import type { Api } from "../delivery/api.ts";
import type { Attachment } from "../delivery/chat.ts";
import { type Failure, failureOf } from "../delivery/failure.ts";
import type { MessagePayload } from "../words/message-payload.ts";

/** An interaction, as far as answering it goes. */
export type Answerable = {
  readonly id: string;
  readonly token: string;
  readonly application_id: string;
};

export type Answering = {
  /** Gives the answer: at once, or in the place of what was promised. */
  give(payloads: readonly MessagePayload[], attached?: Attachment): Promise<void>;
  /** Opens a form; only as the first thing. */
  form(form: APIModalInteractionResponseCallbackData): Promise<void>;
};

export type AnsweringParts = {
  readonly api: Api;
  readonly clock: Clock;
  /** Whether an answer that is not there in time is promised to everyone or to one person alone. */
  readonly ephemeral: boolean;
  /** Where the answer goes when the interaction takes none any more. */
  readonly elsewhere: (payloads: readonly MessagePayload[], attached?: Attachment) => void;
  /** Stands for a moment in a place promised to all, where the answer is for one person alone. */
  readonly apart: MessagePayload;
  /** Said where a form was asked for and the time for opening one is over. */
  readonly tooLateForForm: MessagePayload;
  readonly onFault: (error: unknown) => void;
};

/** Discord waits 3 s for the first answer; without one by then, ms, an answer is promised. */
const PROMISE_AFTER = 1200;
/** "Already acknowledged": the answer before this one got through after all. */
const ACKNOWLEDGED = 40_060;
const TRIES = 4;
const BETWEEN_TRIES = 300;

/**
 * One interaction and its one acknowledgement. An answer that is not there soon is promised first,
 * so that the three seconds hold however slow the disk is.
 */
export function answering(interaction: Answerable, parts: AnsweringParts): Answering {
  const { api, clock, onFault } = parts;
  const { id, token, application_id: application } = interaction;
  let first: Promise<boolean> | undefined;
  const callback = Routes.interactionCallback(id, token) as `/${string}`;
  const original = Routes.webhookMessage(application, token, "@original") as `/${string}`;
  const webhook = Routes.webhook(application, token) as `/${string}`;

  const pause = (ms: number): Promise<void> => new Promise((done) => void clock.setTimer(ms, done));

  /** Asks a few times. @returns what went wrong at last, or nothing */
  const persist = async (ask: () => Promise<unknown>): Promise<Failure | undefined> => {
    let failure: Failure | undefined;
    for (let attempt = 1; attempt <= TRIES; attempt += 1) {
      try {
        await ask();
        return undefined;
      } catch (error) {
        failure = failureOf(error);
        if (failure.kind !== "unreachable" && failure.kind !== "limited") break;
        const wait = failure.kind === "limited" ? failure.ms : BETWEEN_TRIES * attempt;
        if (attempt < TRIES) await pause(wait);
      }
    }
    return failure;
  };

  /**
   * The acknowledgement. @returns "before" when one got through earlier, "lost" when the interaction
   * takes nothing any more
   */
  const acknowledge = async (body: object): Promise<"done" | "before" | "lost"> => {
    const failure = await persist(() => api.request("post", callback, { auth: false, body }));
    if (failure === undefined) return "done";
    return failure.kind === "refused" && failure.code === ACKNOWLEDGED ? "before" : "lost";
  };

  const promise = clock.setTimer(PROMISE_AFTER, () => {
    if (first !== undefined) return;
    const flags = parts.ephemeral ? MessageFlags.Ephemeral : 0;
    const type = InteractionResponseType.DeferredChannelMessageWithSource;
    first = acknowledge({ type, data: { flags } }).then((how) => how !== "lost");
  });

  /** In the place of what was promised. @returns whether it got through */
  const fill = async (payload: MessagePayload): Promise<boolean> => {
    const { flags, ...data } = payload;
    const body = { ...data, flags: flags & MessageFlags.SuppressEmbeds };
    return (await persist(() => api.call("patch", original, { auth: false, body }))) === undefined;
  };

  const follow = async (body: object, files?: readonly Attachment[]): Promise<boolean> =>
    (await persist(() => api.call("post", webhook, { auth: false, body, files }))) === undefined;

  /**
   * The first answer, whatever was promised before. What is for one person alone takes no place that
   * was promised to all.
   */
  const begin = async (head: MessagePayload): Promise<boolean> => {
    if (first === undefined) {
      promise();
      const type = InteractionResponseType.ChannelMessageWithSource;
      const how = acknowledge({ type, data: head });
      first = how.then((one) => one !== "lost");
      return (await how) === "before" ? fill(head) : first;
    }
    if (!(await first)) return false;
    if (parts.ephemeral || (head.flags & MessageFlags.Ephemeral) === 0) return fill(head);
    // A follow-up is only seen by one where it is no longer the promise that it fills.
    if (!(await fill(parts.apart)) || !(await follow(head))) return false;
    await persist(() => api.call("delete", original, { auth: false }));
    return true;
  };

  const giveAll = async (
    payloads: readonly MessagePayload[],
    attached?: Attachment,
  ): Promise<void> => {
    const [head, ...rest] = payloads;
    if (head === undefined) return;
    // An interaction takes answers for a quarter of an hour: what is left then goes elsewhere.
    const left = (await begin(head)) ? [] : [head];
    for (const one of rest) if (left.length > 0 || !(await follow(one))) left.push(one);
    const file = { allowed_mentions: { parse: [] }, flags: head.flags & MessageFlags.Ephemeral };
    const isFileLeft =
      attached !== undefined && (left.length > 0 || !(await follow(file, [attached])));
    if (left.length > 0 || isFileLeft) parts.elsewhere(left, isFileLeft ? attached : undefined);
  };

  return {
    give: (payloads, attached) => giveAll(payloads, attached).catch(onFault),
    async form(form) {
      // What was promised is words: a form cannot take their place.
      if (first !== undefined) return giveAll([parts.tooLateForForm]).catch(onFault);
      promise();
      const type = InteractionResponseType.Modal;
      first = acknowledge({ type, data: form }).then((how) => how !== "lost");
      await first;
    },
  };
}

/** The answer to somebody who is typing an option. Of no use a moment later, so never tried again. */
export async function suggest(
  { id, token }: Answerable,
  choices: readonly { readonly name: string; readonly value: string }[],
  api: Api,
): Promise<void> {
  const type = InteractionResponseType.ApplicationCommandAutocompleteResult;
  const path = Routes.interactionCallback(id, token) as `/${string}`;
  await api
    .request("post", path, { auth: false, body: { type, data: { choices } } })
    .catch(() => undefined);
}
