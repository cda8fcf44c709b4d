import type { InteractionHandle } from "../stand-in/people/interaction-handle.ts";
import type { Person } from "../stand-in/people/person.ts";
import type { Posted } from "../stand-in/people/posted.ts";
import { type Bot, type BotOptions, type Scene, TOKEN } from "./bot.ts";

const HERE = ["ViewChannel", "SendMessages", "ReadMessageHistory"] as const;

export type ClubOptions = {
  readonly messageContent?: boolean;
  /** What all three call themselves in the club; by their own names when left out. */
  readonly nick?: string;
};

/** An invented film club: a private channel, a public one, the group's, and three people. */
export function foundClub({ standIn }: Scene, more: ClubOptions = {}) {
  const { messageContent = false, nick } = more;
  const called = nick === undefined ? {} : { nick };
  const app = standIn.application({ token: TOKEN, intents: { messageContent } });
  const club = standIn.guild({
    name: "Film club",
    roles: [{ name: "printers" }, { name: "managers", permissions: ["ManageGuild"] }],
    channels: [
      {
        name: "wet-bench",
        overwrites: [
          { for: "@everyone", deny: ["ViewChannel"] },
          { for: "bot", allow: [...HERE, "AttachFiles"] },
          { for: "Ines", allow: [...HERE] },
          { for: "Rui", allow: [...HERE] },
          { for: "Tome", allow: [...HERE] },
        ],
      },
      "general",
      "film-group",
      { name: "wet-voice", type: "voice" },
      { name: "lounge", type: "voice" },
    ],
    members: [
      { name: "Ines", owner: true, ...called },
      { name: "Rui", ...called },
      { name: "Tome", ...called },
    ],
  });
  return {
    app,
    club,
    ines: club.member("Ines"),
    rui: club.member("Rui"),
    /** In the club, not at the bench. */
    tome: club.member("Tome"),
    get posts(): readonly Posted[] {
      return club.channel("wet-bench").messages;
    },
  };
}

export type Club = ReturnType<typeof foundClub>;

export const BENCH = "wet-bench";

/** A word of a member at the bench, answered. */
export async function ask(
  { standIn }: Scene,
  person: Person,
  sentence: string,
  channel = BENCH,
): Promise<InteractionHandle> {
  const asked = person.slash("say", { channel, options: { sentence } });
  await standIn.settled();
  return asked;
}

/** A bench of the club that is open, with Ines and Rui at it. */
export async function openBenchAt(
  scene: Scene,
  more: ClubOptions & { readonly options?: BotOptions } = {},
): Promise<Club & { readonly bot: Bot }> {
  const club = foundClub(scene, more);
  const bot = await scene.start(more.options);
  club.ines.slash("wetside open", { channel: BENCH });
  await scene.standIn.settled();
  club.ines.slash("wetside member add", { channel: BENCH, options: { user: club.rui.id } });
  await scene.standIn.settled();
  return Object.assign(club, { bot });
}

/** The bench's runs may go to the channel of the film group from here on. */
export function nameGroup({ standIn }: Scene, person: Person): void {
  const channel = standIn.channel("film-group").id;
  person.slash("wetside group-channel", { channel: BENCH, options: { channel } });
}

/** Another private channel of the club, called second-bench, opened as a bench by somebody. */
export async function openSecondBench({ standIn }: Scene, person: Person): Promise<void> {
  standIn.addChannel("Film club", {
    name: "second-bench",
    overwrites: [
      { for: "@everyone", deny: ["ViewChannel"] },
      { for: "bot", allow: ["ViewChannel", "SendMessages"] },
      { for: "Ines", allow: ["ViewChannel", "SendMessages"] },
    ],
  });
  person.slash("wetside open", { channel: "second-bench" });
  await standIn.settled();
}

/** The latest message with a button of that label. */
export function withButton(posts: readonly Posted[], label: string): Posted {
  const found = posts.findLast(({ buttons }) => buttons.some((one) => one.label === label));
  if (found === undefined) throw new Error(`No message has a button ${label}`);
  return found;
}
