import { Routes } from "discord-api-types/v10";
import { ownValue } from "../../../domain/own-value.ts";
import { drawingOf } from "../../../picture/drawing-of.ts";
import { toPng } from "../../../picture/png.ts";
import { answer, type ReplyShare } from "../../../reply/reply.ts";
import { fileNameOf } from "../../../store/names.ts";
import type { Api } from "../delivery/api.ts";
import { type Failure, failureOf } from "../delivery/failure.ts";
import type { Room, Speaker } from "../rooms/room.ts";
import { button } from "../words/buttons.ts";
import { type MessagePayload, payload } from "../words/message-payload.ts";

/** The words of the buttons under a preview. */
export const SHARE_YES = "share-yes";
export const SHARE_NO = "share-no";

/** A preview waits so long for its yes, ms. */
const PATIENCE = 10 * 60_000;

type Offer = Room["place"]["value"]["offers"][string];

/**
 * What stands below the preview of a run that may go to the group, and what is kept for the yes:
 * the very messages that were shown.
 */
export async function offerShare(
  room: Room,
  { run, title, lines, picture }: ReplyShare,
  speaker: Speaker,
): Promise<readonly MessagePayload[]> {
  const { groupChannel, shared } = room.place.value;
  const { bench } = room.keeper.record;
  if (groupChannel === undefined) {
    return [
      payload("No channel is named for sharing; an administrator says /wetside group-channel."),
    ];
  }
  // One that is not at hand stands in a file, and is over long ago.
  const found = ownValue(bench.runs, run);
  if (found !== undefined && found.endedAt === undefined) {
    return [payload("That run is not over. Say share again when it is.")];
  }
  const payloads = room
    .render(answer({ title, lines, say: title }), speaker.name)
    .map((one): MessagePayload => ({ ...one, components: [] }));
  const offer: Offer = { run, payloads, at: room.now(), ...drawn(picture) };
  await room.place.change((value) => ({
    ...value,
    offers: { ...value.offers, [speaker.id]: offer },
  }));
  const again = shared.includes(run) ? " It was shared before." : "";
  const asked = askedOf(offer);
  const buttons = [
    [
      button(room.key, SHARE_YES, asked, "yes, share", true),
      button(room.key, SHARE_NO, asked, "no"),
    ],
  ];
  return [payload(`Post just that in <#${groupChannel}>?${again}`, { buttons })];
}

/** As it was shown: what happens to the run meanwhile changes nothing of what is posted. */
function drawn(picture: ReplyShare["picture"]): Pick<Offer, "picture"> {
  if (picture === undefined) return {};
  const name = `${fileNameOf(picture.name)}.png`;
  return { picture: { name, ...drawingOf(picture, "phone") } };
}

const askedOf = ({ run, at }: Offer): string => `${run}.${at.toString(36)}`;

/** The offer this person has not answered yet. */
export function openOffer(room: Room, { id }: Speaker): Offer | undefined {
  const { offers } = room.place.value;
  const offer = Object.hasOwn(offers, id) ? offers[id] : undefined;
  return offer === undefined || room.now() - offer.at > PATIENCE ? undefined : offer;
}

/** Anything else that is said puts the offer aside. */
export async function dropOffer(room: Room, { id }: Speaker): Promise<void> {
  if (!Object.hasOwn(room.place.value.offers, id)) return;
  await room.place.change((value) => {
    const { [id]: _, ...offers } = value.offers;
    return { ...value, offers };
  });
}

/**
 * The answer to an offer. @param asked which offer was answered; missing: the open one, by word
 * @returns what to say about it
 */
export async function answerOffer(
  room: Room,
  speaker: Speaker,
  yes: boolean,
  api: Api,
  asked?: string,
): Promise<string> {
  const offer = openOffer(room, speaker);
  const { groupChannel } = room.place.value;
  if (offer === undefined || (asked !== undefined && asked !== askedOf(offer))) {
    return "That preview is not open for you any more. Nothing was shared; say share again.";
  }
  if (!yes || groupChannel === undefined) {
    await dropOffer(room, speaker);
    return "Nothing was shared.";
  }
  for (const [index, one] of offer.payloads.entries()) {
    // The same nonce for the same offer: a second yes posts nothing twice.
    const nonce = `g${speaker.id.slice(-6)}-${offer.at.toString(36)}-${index}`;
    const body = { ...one, nonce, enforce_nonce: true };
    try {
      const files = index === 0 ? await filesOf(offer) : undefined;
      await api.call("post", Routes.channelMessages(groupChannel) as `/${string}`, { body, files });
    } catch (error) {
      return whyNot(failureOf(error), groupChannel);
    }
  }
  await dropOffer(room, speaker);
  await room.place.change((value) => ({
    ...value,
    shared: [...new Set([...value.shared, offer.run])].slice(-200),
  }));
  return `Shared in <#${groupChannel}>.`;
}

async function filesOf({ picture }: Offer) {
  if (picture === undefined) return undefined;
  return [{ name: picture.name, data: await toPng(picture) }];
}

function whyNot(failure: Failure, channel: string): string {
  switch (failure.kind) {
    case "no-permission":
      return `I may not write in <#${channel}>. An administrator lets me in, then press yes again.`;
    case "gone":
      return "The group's channel is gone. An administrator names another: /wetside group-channel.";
    default:
      return "I could not reach the group's channel. Nothing is lost: press yes again in a minute.";
  }
}
