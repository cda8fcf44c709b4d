import type { Lost } from "./line.ts";

/** What the channel itself has to say about calls. */

const there = (channel: string): string => `<#${channel}>`;

export const noVoice =
  "I have no voice on this machine yet; everything else works. npm run doctor says the one command that adds it.";

export const comeWhere =
  "You are in no voice channel I can see. Go into one, then say join; I come to where you are.";

export const notThere = (channel: string): string =>
  `This bench speaks in ${there(channel)}. Go in there first, then say join.`;

export const already = (channel: string): string => `I am in ${there(channel)} already.`;

export const elsewhere = (channel: string, bench: string): string =>
  `I can be in one call of a server at a time, and am in ${there(channel)} for the bench in ${there(bench)}. Say leave there first.`;

export const mayNot = (channel: string, names: readonly string[]): string =>
  `I may not speak there. Allow me ${names.join(" and ")} in ${there(channel)}, under its Permissions, then say join again.`;

export const noVoiceChannel =
  "That is no voice channel. Name an ordinary one; a stage lets nobody speak unasked.";

export const unseen = (channel: string): string =>
  `I cannot see ${there(channel)}. Let me in under its Permissions, then say join again.`;

export const joined = (channel: string, isPublic: boolean): string =>
  [
    `I am in ${there(channel)}. I listen to members of this bench and to nobody else, and record nothing.`,
    ...(isPublic ? ["Everyone in the server can come in and hear me."] : []),
    "Say leave and I go.",
  ].join(" ");

export const left = (channel: string): string => `I have left ${there(channel)}.`;

export const notInCall = "I am in no call.";

export const named = (channel: string | undefined): string =>
  channel === undefined
    ? "This bench has no voice channel of its own now: I come to where a member is."
    : `This bench speaks in ${there(channel)}. A member who is in there says join, or come in.`;

export const cannotHear =
  "What is said in the call cannot be decrypted here, also after I joined anew. Say leave, then join; until then type.";

const CUES = "Cues go on here; say join to have me back.";

/** Why the bot is not in a call any more. */
export function whyLost(why: Lost, channel: string): string {
  switch (why.kind) {
    case "put-out":
      return `Somebody disconnected me from ${there(channel)}, so I stay out. ${CUES}`;
    case "no-answer":
      return `Discord's voice server for ${there(channel)} does not answer, so I left the call. ${CUES}`;
    case "refused":
      return why.code === undefined
        ? `Discord ended the call in ${there(channel)} again and again, so I left it. ${CUES}`
        : `Discord ended the call in ${there(channel)} again and again (code ${why.code}${why.code === E2E ? ": it wants end-to-end encryption that I cannot give; update Wetside" : ""}), so I left it. ${CUES}`;
    case "gone":
      return `My connection to Discord began anew, so I am out of ${there(channel)}. ${CUES}`;
  }
}

/** The close code of a call without the end-to-end encryption that Discord demands. */
const E2E = 4017;

export const nobodyLeft = (channel: string): string =>
  `Nobody of this bench is in ${there(channel)} any more, so I left it.`;

export const quietFor = (channel: string, minutes: number): string =>
  `No run is open and nobody said a word for ${minutes} minutes, so I left ${there(channel)}. Say join to have me back.`;
