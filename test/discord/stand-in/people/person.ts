import { ComponentType, InteractionType, MessageType } from "discord-api-types/v10";
import { editMessage, postMessage } from "../messages/post.ts";
import { channelPermissions, has } from "../permissions.ts";
import { directChannel } from "../rest/routes-self.ts";
import type { Hosts } from "../views/message.ts";
import { setVoiceState } from "../voice-states.ts";
import type { Application, Channel, Message, User, World } from "../world.ts";
import { act } from "./act.ts";
import { type ChannelHandle, channelHandle } from "./channel-handle.ts";
import { type FormValues, formData } from "./form-data.ts";
import type { FormShown, InteractionHandle } from "./interaction-handle.ts";
import { refuseCommand } from "./offered.ts";
import { buttonsOf, type Posted, posted } from "./posted.ts";
import { type Options, slashData } from "./slash-data.ts";

/** A channel by its handle, id, or name; "dm" is the direct message with the bot. */
export type Where = { readonly id: string } | string;

export type SlashSpec = {
  readonly options?: Options;
  /** The first channel the person sees when left out. */
  readonly channel?: Where;
};

export type CompleteSpec = SlashSpec & { readonly option: string; readonly typed: string };

export type SpeechSpec = {
  readonly files?: readonly { readonly name: string; readonly bytes: Uint8Array }[];
  readonly replyTo?: { readonly id: string };
};

/** Somebody who uses the service through the ordinary program, and what they can do there. */
export type Person = {
  readonly id: string;
  readonly name: string;
  /** How to write them into a message. */
  readonly mention: string;
  says(channel: Where, text: string, more?: SpeechSpec): Posted;
  dm(text: string, more?: SpeechSpec): Posted;
  edits(message: { readonly id: string }, text: string): void;
  slash(line: string, spec?: SlashSpec): InteractionHandle;
  autocomplete(line: string, spec: CompleteSpec): InteractionHandle;
  /**
   * Presses a button by its custom id or label. `forged` sends a custom id that is on no button.
   * @throws when there is no such button, it is disabled, or the message is not theirs to see
   */
  press(
    message: { readonly id: string },
    button: string,
    more?: { readonly forged?: boolean },
  ): InteractionHandle;
  /** Chooses in a select menu by its custom id. */
  chooses(
    message: { readonly id: string },
    customId: string,
    values: readonly string[],
  ): InteractionHandle;
  submits(
    form: FormShown,
    values: FormValues,
    more?: { readonly forgedId?: string },
  ): InteractionHandle;
  /** What they see in a channel: also what only they see. */
  sees(channel: Where): readonly Posted[];
  /** The direct messages with the bot. */
  readonly direct: ChannelHandle;
  /** Goes into a voice channel, into another one, or out of it. */
  voice(channel: Where | undefined): void;
  /** From now on takes no direct messages, or does again. */
  closesDms(closed?: boolean): void;
};

export type Surroundings = {
  readonly world: World;
  readonly hosts: Hosts;
  /** The bot they talk to. */
  readonly application: () => Application;
};

/** Some people's programs take 4000 characters where a bot may only send 2000 (from memory). */
const LONGEST = 4000;

export function person({ world, hosts, application }: Surroundings, user: User): Person {
  const direct = (): Channel => directChannel(world, application().bot, user);
  const sees = (channel: Channel): boolean =>
    has(channelPermissions(world, channel, user.id), "ViewChannel");

  const place = (where: Where | undefined): Channel => {
    if (where === "dm") return direct();
    const all = [...world.channels.values()];
    const wanted = typeof where === "object" ? where.id : where;
    const found = all.find(
      (channel) =>
        (wanted === undefined
          ? channel.type === 0
          : channel.id === wanted || channel.name === wanted) && sees(channel),
    );
    if (found === undefined) throw new Error(`${user.name} sees no channel ${wanted ?? ""}`);
    return found;
  };

  const guildOfVoice = (): string | undefined =>
    [...world.voice.states].find(([, states]) => states.has(user.id))?.[0];

  const find = ({ id }: { readonly id: string }): [Channel, Message] => {
    for (const channel of world.channels.values())
      for (const message of channel.messages)
        if (message.id === id) {
          if (message.deletedAt !== undefined) throw new Error("That message is deleted");
          if (!sees(channel) || (message.onlyFor ?? user.id) !== user.id)
            throw new Error(`${user.name} does not see that message`);
          return [channel, message];
        }
    throw new Error(`No message ${id}`);
  };

  const speak = (channel: Channel, text: string, more: SpeechSpec = {}): Posted => {
    if (!has(channelPermissions(world, channel, user.id), "SendMessages"))
      throw new Error(`${user.name} may not write in ${channel.name}`);
    if (text.length > LONGEST) throw new Error(`${user.name} can write no more than ${LONGEST}`);
    const message = postMessage(world, hosts, {
      channel,
      author: user,
      form: {
        content: text,
        ...(more.replyTo === undefined
          ? {}
          : { message_reference: { message_id: more.replyTo.id } }),
      },
      uploads: (more.files ?? []).map(({ name, bytes }, index) => ({
        index: String(index),
        filename: name,
        contentType: "application/octet-stream",
        bytes,
      })),
      type: more.replyTo === undefined ? MessageType.Default : MessageType.Reply,
    });
    return posted(world, message);
  };

  const interact = (
    channel: Channel,
    type: InteractionType,
    data: object,
    messageId?: string,
  ): InteractionHandle =>
    act(world, hosts, { application: application(), user, channel, type, data, messageId });

  const command = (line: string, spec: SlashSpec, complete?: CompleteSpec): InteractionHandle => {
    const channel = place(spec.channel);
    refuseCommand(world, application(), user, channel, line);
    const guild = world.guilds.get(channel.guildId ?? "");
    const data = slashData(world, application(), guild, line, spec.options ?? {}, complete);
    const type =
      complete === undefined
        ? InteractionType.ApplicationCommand
        : InteractionType.ApplicationCommandAutocomplete;
    return interact(channel, type, data);
  };

  return {
    id: user.id,
    name: user.name,
    mention: `<@${user.id}>`,
    says: (channel, text, more) => speak(place(channel), text, more),
    dm: (text, more) => speak(direct(), text, more),
    edits(message, text) {
      const [, found] = find(message);
      if (found.author !== user) throw new Error("Not their message");
      editMessage(world, hosts, found, { content: text }, []);
    },
    slash: (line, spec = {}) => command(line, spec),
    autocomplete: (line, spec) => command(line, spec, spec),
    press(message, button, { forged = false } = {}) {
      const [channel, found] = find(message);
      const known = buttonsOf(found.said.components).find(
        ({ customId, label }) => customId === button || label === button,
      );
      if (!forged && known?.customId === undefined) throw new Error(`No button ${button}`);
      if (!forged && known?.disabled === true) throw new Error(`The button ${button} is disabled`);
      const data = {
        component_type: ComponentType.Button,
        custom_id: forged ? button : known?.customId,
        id: 1,
      };
      return interact(channel, InteractionType.MessageComponent, data, found.id);
    },
    chooses(message, customId, values) {
      const [channel, found] = find(message);
      const data = {
        component_type: ComponentType.StringSelect,
        custom_id: customId,
        values,
        id: 1,
      };
      return interact(channel, InteractionType.MessageComponent, data, found.id);
    },
    submits(form, values, { forgedId } = {}) {
      const channel = world.channels.get(form.channelId);
      if (channel === undefined) throw new Error("The form's channel is gone");
      const data = { ...formData(form, values), ...(forgedId ? { custom_id: forgedId } : {}) };
      return interact(channel, InteractionType.ModalSubmit, data, form.messageId);
    },
    sees: (where) =>
      place(where)
        .messages.filter(
          ({ deletedAt, onlyFor }) =>
            deletedAt === undefined && (onlyFor === undefined || onlyFor === user.id),
        )
        .map((message) => posted(world, message)),
    get direct() {
      return channelHandle(world, direct());
    },
    voice(where) {
      const channel = where === undefined ? undefined : place(where);
      const guild = world.guilds.get(channel?.guildId ?? guildOfVoice() ?? "");
      if (guild === undefined) throw new Error(`${user.name} is in no call`);
      if (channel !== undefined && !has(channelPermissions(world, channel, user.id), "Connect"))
        throw new Error(`${user.name} may not enter ${channel.name}`);
      const state = { session: `voice-${user.id}`, selfDeaf: false, selfMute: false };
      setVoiceState(
        world,
        guild,
        user.id,
        channel === undefined ? undefined : { ...state, channel: channel.id },
      );
    },
    closesDms(closed = true) {
      user.closed = closed;
    },
  };
}
