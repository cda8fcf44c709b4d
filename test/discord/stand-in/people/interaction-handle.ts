import {
  type APIApplicationCommandOptionChoice,
  type APIModalInteractionResponseCallbackData,
  InteractionResponseType as Response,
} from "discord-api-types/v10";
import { ACKNOWLEDGE_MS } from "../rest/interaction-of.ts";
import type { Interaction, World } from "../world.ts";
import { type Posted, posted } from "./posted.ts";

/** What a user sees come of one action. */
export type InteractionHandle = {
  readonly id: string;
  readonly acknowledged: boolean;
  /** How the bot acknowledged. */
  readonly acknowledgedBy: Response | undefined;
  /** Service ms from the action to the acknowledgement. */
  readonly acknowledgedAfter: number | undefined;
  /** "The application did not respond." */
  readonly failed: boolean;
  /** The response and the follow-ups, without what is still loading or deleted. */
  readonly responses: readonly Posted[];
  readonly content: string;
  /** Whether the first response is seen by the user alone. */
  readonly ephemeral: boolean | undefined;
  readonly modal: FormShown | undefined;
  readonly choices: readonly APIApplicationCommandOptionChoice[] | undefined;
  /** Waits, in real time and not for long, for a response, a form or choices. */
  answer(): Promise<Posted | undefined>;
  /** The same event arrives once more, as after a resume that went wrong. */
  replay(): void;
};

export type FormShown = APIModalInteractionResponseCallbackData & {
  /** The message its button sits on. */
  readonly messageId: string | undefined;
  readonly channelId: string;
};

const LONGEST_WAIT_MS = 10_000;

export function interactionHandle(
  world: World,
  interaction: Interaction,
  send: () => void,
): InteractionHandle {
  const responses = (): Posted[] =>
    [interaction.original, ...interaction.followUps]
      .flatMap((message) => (message === undefined ? [] : [posted(world, message)]))
      .filter(({ loading, deleted }) => !loading && !deleted);
  const answered = (): boolean =>
    interaction.acknowledged !== undefined &&
    (interaction.modal !== undefined ||
      interaction.choices !== undefined ||
      interaction.acknowledged.type === Response.DeferredMessageUpdate ||
      responses().length > 0);
  return {
    id: interaction.id,
    get acknowledged() {
      return interaction.acknowledged !== undefined;
    },
    get acknowledgedBy() {
      return interaction.acknowledged?.type;
    },
    get acknowledgedAfter() {
      const { acknowledged } = interaction;
      return acknowledged === undefined ? undefined : acknowledged.at - interaction.at;
    },
    get failed() {
      return (
        interaction.acknowledged === undefined && world.now() - interaction.at > ACKNOWLEDGE_MS
      );
    },
    get responses() {
      return responses();
    },
    get content() {
      return responses()[0]?.content ?? "";
    },
    get ephemeral() {
      return interaction.original === undefined
        ? undefined
        : interaction.original.onlyFor !== undefined;
    },
    get modal() {
      return interaction.modal === undefined
        ? undefined
        : {
            ...interaction.modal,
            messageId: interaction.messageId,
            channelId: interaction.channelId,
          };
    },
    get choices() {
      return interaction.choices;
    },
    async answer() {
      const end = performance.now() + LONGEST_WAIT_MS;
      while (!answered()) {
        if (performance.now() > end) throw new Error("No answer to the interaction");
        await new Promise((resolve) => setTimeout(resolve, 2));
      }
      return responses()[0];
    },
    replay: send,
  };
}
