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
  readonly elsewhere: (payloads: readonly MessagePayload[]) => void;
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

  const fill = (payload: MessagePayload): Promise<unknown> => {
    const { flags, ...data } = payload;
    const body = { ...data, flags: flags & MessageFlags.SuppressEmbeds };
    return persist(() => api.call("patch", original, { auth: false, body }));
  };

  const follow = async (rest: readonly MessagePayload[], attached?: Attachment): Promise<void> => {
    for (const body of rest) await persist(() => api.call("post", webhook, { auth: false, body }));
    if (attached === undefined) return;
    const body = { allowed_mentions: { parse: [] }, flags: 0 };
    await persist(() => api.call("post", webhook, { auth: false, body, files: [attached] }));
  };

  const giveAll = async (
    payloads: readonly MessagePayload[],
    attached?: Attachment,
  ): Promise<void> => {
    const [head, ...rest] = payloads;
    if (head === undefined) return;
    if (first === undefined) {
      promise();
      const type = InteractionResponseType.ChannelMessageWithSource;
      const how = acknowledge({ type, data: head });
      first = how.then((one) => one !== "lost");
      if ((await how) === "before") await fill(head);
    } else if (await first) {
      await fill(head);
    }
    if (!(await first)) return parts.elsewhere(payloads);
    await follow(rest, attached);
  };

  return {
    give: (payloads, attached) => giveAll(payloads, attached).catch(onFault),
    async form(form) {
      if (first !== undefined) return;
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
