import type { Room } from "../rooms/room.ts";
import { button } from "../words/buttons.ts";
import { type MessagePayload, payload } from "../words/message-payload.ts";

/** What the channel itself has to say, beside the benches. */

/** The word of the button that chooses a bench for direct messages. */
export const CHOOSE = "at";

/** What the button of a bench says; no markup is read in it. */
const benchName = ({ place: { value } }: Room): string => `#${value.channelName}`;

export const notAMember =
  "This bench is for its members only. An administrator of the server can add you.";

export const tooMuch = "That is more than I can follow. Give me a few seconds, then say it again.";

export const apart = "This answer is for one person.";

export const tooLateForForm = "That took me too long, so no form opened. Press form again.";

export const noFiles =
  "I take no files here but an archive, from an owner who says restore everything; nothing was changed. Type it, or say it in words.";

export const notHere = (rooms: readonly Room[]): string =>
  rooms.length === 0
    ? "There is no bench in this channel. An administrator opens one with /wetside open, in a private channel."
    : `My bench is not in this channel. Say it in ${rooms.map(({ place: { value } }) => `<#${value.channel}>`).join(" or ")}, or here to me directly.`;

const noBench =
  "You are a member of no bench of mine. An administrator of your server adds you with /wetside member add. For first aid say eyes, burn, swallowed, shock or can't breathe.";

/** @param isOneOfSeveral  only this process hears direct messages, and others have benches too */
export const noBenchHere = (isOneOfSeveral: boolean): string =>
  isOneOfSeveral
    ? `${noBench} If you are a member of one, say it in the bench's channel: direct messages do not reach every bench of mine.`
    : noBench;

export function whichBench(rooms: readonly Room[], ephemeral: boolean): MessagePayload {
  const all = rooms.slice(0, 25);
  const rows = [0, 5, 10, 15, 20].map((from) =>
    all.slice(from, from + 5).map((room) => button(room.key, CHOOSE, undefined, benchName(room))),
  );
  return payload("Which bench is that for? I keep to it until you say /mine bench.", {
    buttons: rows,
    ephemeral,
  });
}

export const chosenBench = (room: Room): string =>
  `Your direct messages are for the bench in <#${room.place.value.channel}> now.`;

export const remindersGo = (where: "channel" | "dm", room: Room): string =>
  where === "dm"
    ? "Your reminders and the daily message come to you directly from now on."
    : `Your reminders and the daily message come in <#${room.place.value.channel}> from now on.`;

/** "send my reminders here", "reminders by direct message": where, as plain words say it. */
export function readReminderChoice(text: string, isDirect: boolean): "channel" | "dm" | undefined {
  const match =
    /^(?:please )?(?:send |give )?(?:me )?(?:my )?reminders (?:come |go )?(by dm|by direct message|directly|in the channel|to the channel|here)$/i.exec(
      text.trim().replace(/[.!]$/, ""),
    );
  switch (match?.[1]?.toLowerCase()) {
    case undefined:
      return undefined;
    case "here":
      return isDirect ? "dm" : "channel";
    case "in the channel":
    case "to the channel":
      return "channel";
    default:
      return "dm";
  }
}
