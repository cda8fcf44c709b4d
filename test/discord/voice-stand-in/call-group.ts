import davey from "@snazzah/davey";
import { vector } from "./mls/bytes.ts";
import { createExternalSender } from "./mls/external-sender.ts";
import { splitCommit } from "./mls/split-commit.ts";

const APPEND = 0;
const AUDIO = 0;
const VERSION = 1;

/** What the group has to say to the bot. */
export type BotLine = {
  json(op: 21 | 22 | 24, d: object): void;
  binary(op: 25 | 27 | 29 | 30, payload: Buffer): void;
};

/** Who makes the commits that count: somebody in the call, or the bot, where both could. */
export type Committer = "people" | "bot";

type Bot = { readonly id: string; line: BotLine; keyPackage: Buffer | undefined };
type Proposals = { readonly added: readonly string[]; readonly payload: Buffer };

/**
 * The end-to-end encrypted group of one call, as the voice server sees it, with the sessions of
 * the people in it (DAVE protocol 1.1, version 1). The bot's own session is the bot's.
 */
export class CallGroup {
  readonly #sender;
  readonly #channel: string;
  readonly #committer: Committer;
  readonly #people = new Map<string, davey.DAVESession>();
  readonly #reports: (what: string) => void;
  #bot: Bot | undefined;
  /** Whose each leaf of the tree is; new members take the first free one. */
  #leaves: (string | undefined)[] = [];
  #epoch = 0n;
  #transition = 0;
  /** What the bot was asked to commit. */
  #awaited: Proposals | undefined;
  /** The bot flagged a commit or welcome and is to be added anew. */
  #flagged = false;
  /** Transitions the bot said it is ready for. */
  readonly transitions: number[] = [];
  /** How often the bot asked to be added anew. */
  flags = 0;

  constructor(channel: string, committer: Committer, reports: (what: string) => void) {
    this.#channel = channel;
    this.#committer = committer;
    this.#reports = reports;
    this.#sender = createExternalSender(channel);
  }

  get members(): readonly string[] {
    return this.#leaves.filter((one) => one !== undefined);
  }

  get privacyCode(): string {
    return [...this.#people.values()].find(({ ready }) => ready)?.voicePrivacyCode ?? "";
  }

  /** Somebody comes into the call. */
  enter(person: string): void {
    const session = new davey.DAVESession(VERSION, person, this.#channel);
    session.setExternalSender(this.#sender.told);
    this.#people.set(person, session);
    this.#settle();
  }

  /** Somebody, or the bot, has left. */
  leave(who: string) {
    this.#people.delete(who);
    if (this.#bot?.id === who) this.#bot = undefined;
    this.#awaited = undefined;
    const leaf = this.#leaves.indexOf(who);
    if (leaf < 0) return;
    if (this.members.length <= 2) return this.#startOver();
    this.#propose({
      added: [],
      payload: vector(this.#sender.remove(leaf, this.#epoch)),
    });
    this.#settle();
  }

  /** The bot has a session with the server and hears of the external sender. */
  greet(id: string, line: BotLine): void {
    this.#bot = { id, line, keyPackage: undefined };
    line.binary(25, this.#sender.told);
  }

  /** Opcode 26 of the bot. */
  takeKeyPackage(keyPackage: Buffer): void {
    if (this.#bot === undefined) return;
    this.#bot.keyPackage = keyPackage;
    this.#settle();
  }

  /** Opcode 28 of the bot. */
  takeCommit(payload: Buffer): void {
    const { commit, welcome } = splitCommit(payload);
    const awaited = this.#awaited;
    // The first commit of an epoch counts; a later one is not passed on.
    if (awaited === undefined) return;
    this.#awaited = undefined;
    if (awaited.added.length > 0 !== (welcome !== undefined)) {
      this.#reports("a commit whose welcome does not fit what was proposed");
    }
    if (this.#epoch === 0n && this.#bot !== undefined) this.#leaves = [this.#bot.id];
    this.#announce(awaited, commit, welcome);
    this.#settle();
  }

  /** Opcode 23 of the bot. */
  takeReady(transition: number): void {
    if (transition > this.#transition) this.#reports(`ready for unknown transition ${transition}`);
    this.transitions.push(transition);
    this.#bot?.line.json(22, { transition_id: transition });
  }

  /** Opcode 31 of the bot: it is taken out and, with a new key package, let in again. */
  takeInvalid() {
    this.flags += 1;
    this.#flagged = true;
    this.#awaited = undefined;
    if (this.#bot !== undefined) this.#bot.keyPackage = undefined;
  }

  /** A frame as this person's program sends it. */
  encrypt(person: string, frame: Buffer): Buffer {
    const session = this.#people.get(person);
    return session?.ready === true && this.#leaves.includes(person)
      ? session.encryptOpus(frame)
      : frame;
  }

  /** A frame of the bot as somebody in the call hears it. @throws when it cannot be decrypted */
  decrypt(from: string, frame: Buffer): Buffer {
    for (const [person, session] of this.#people) {
      if (session.ready && this.#leaves.includes(person))
        return session.decrypt(from, AUDIO, frame);
    }
    return frame;
  }

  /** Everyone who waits is proposed, once nothing else is under way. */
  #settle() {
    if (this.#awaited !== undefined) return;
    const bot = this.#bot;
    if (this.#flagged) {
      if (bot?.keyPackage === undefined) return;
      this.#flagged = false;
      return this.#addAnew(bot, bot.keyPackage);
    }
    const waiting = [...this.#people.keys()].filter((one) => !this.#leaves.includes(one));
    const botWaits = bot?.keyPackage !== undefined && !this.#leaves.includes(bot.id);
    if (this.members.length === 0) {
      if (waiting.length + (botWaits ? 1 : 0) < 2) return;
      const founder = botWaits && this.#committer === "bot" ? bot.id : waiting[0];
      if (founder !== undefined && founder !== bot?.id) this.#leaves = [founder];
      const others = waiting.filter((one) => one !== founder);
      return this.#proposeAdds(others, botWaits && founder !== bot.id ? bot : undefined);
    }
    if (waiting.length > 0 || botWaits) this.#proposeAdds(waiting, botWaits ? bot : undefined);
  }

  #proposeAdds(people: readonly string[], bot: Bot | undefined): void {
    const messages = people.map((one) => {
      const keyPackage = this.#people.get(one)?.getSerializedKeyPackage() ?? Buffer.alloc(0);
      return this.#sender.add(keyPackage, this.#epoch);
    });
    if (bot?.keyPackage !== undefined) {
      messages.push(this.#sender.add(bot.keyPackage, this.#epoch));
      // Who waits beside the bot is proposed to it as well, while there is no group; its commit comes late.
      if (this.#epoch === 0n) this.#proposeFounder(bot);
    }
    this.#propose({
      added: [...people, ...(bot === undefined ? [] : [bot.id])],
      payload: vector(Buffer.concat(messages)),
    });
  }

  #proposeFounder(bot: Bot): void {
    const [founder = ""] = this.#leaves;
    const keyPackage = this.#people.get(founder)?.getSerializedKeyPackage();
    if (keyPackage === undefined) return;
    const payload = vector(this.#sender.add(keyPackage, 0n));
    bot.line.binary(27, Buffer.concat([Buffer.of(APPEND), payload]));
  }

  #addAnew(bot: Bot, keyPackage: Buffer): void {
    const leaf = this.#leaves.indexOf(bot.id);
    const messages = [
      ...(leaf < 0 ? [] : [this.#sender.remove(leaf, this.#epoch)]),
      this.#sender.add(keyPackage, this.#epoch),
    ];
    if (leaf >= 0) this.#leaves[leaf] = undefined;
    this.#propose({ added: [bot.id], payload: vector(Buffer.concat(messages)) });
  }

  /** Tells all members of proposals; the first commit is announced. */
  #propose(proposals: Proposals): void {
    const bot = this.#bot;
    const known = [...this.#people.keys(), ...(bot === undefined ? [] : [bot.id])];
    const members = this.members;
    const botIs = bot !== undefined && (members.includes(bot.id) || members.length === 0);
    const people = members.filter((one) => one !== bot?.id);
    const byBot = botIs && (this.#committer === "bot" || people.length === 0);
    if (botIs) {
      if (byBot) this.#awaited = proposals;
      bot.line.binary(27, Buffer.concat([Buffer.of(APPEND), proposals.payload]));
    }
    const commits = people.flatMap((one) => {
      const session = this.#people.get(one);
      if (session === undefined) return [];
      return [session.processProposals(APPEND, proposals.payload, known)];
    });
    const [first] = commits;
    if (!byBot && first?.commit !== undefined) {
      this.#announce(proposals, first.commit, first.welcome);
    }
  }

  #announce({ added }: Proposals, commit: Buffer, welcome: Buffer | undefined): void {
    this.#transition += 1;
    const id = Buffer.alloc(2);
    id.writeUInt16BE(this.#transition);
    const bot = this.#bot;
    const before = this.members;
    this.#removeGone();
    for (const one of added) {
      const free = this.#leaves.indexOf(undefined);
      if (free < 0) this.#leaves.push(one);
      else this.#leaves[free] = one;
    }
    for (const [person, session] of this.#people) {
      if (!this.#leaves.includes(person)) continue;
      if (added.includes(person)) session.processWelcome(welcome ?? Buffer.alloc(0));
      else session.processCommit(commit);
    }
    this.#epoch += 1n;
    if (bot === undefined || !this.#leaves.includes(bot.id)) return;
    if (!added.includes(bot.id) && before.includes(bot.id))
      bot.line.binary(29, Buffer.concat([id, commit]));
    else bot.line.binary(30, Buffer.concat([id, welcome ?? Buffer.alloc(0)]));
  }

  /** Who was proposed for removal is not in the call any more. */
  #removeGone(): void {
    this.#leaves = this.#leaves.map((one) =>
      one === undefined || this.#people.has(one) || one === this.#bot?.id ? one : undefined,
    );
  }

  /** One member alone has no group ("Sole member reset"). */
  #startOver(): void {
    this.#leaves = [];
    this.#epoch = 0n;
    for (const [person, session] of this.#people) {
      session.reinit(VERSION, person, this.#channel);
      session.setExternalSender(this.#sender.told);
    }
    if (this.#bot === undefined) return;
    this.#bot.keyPackage = undefined;
    this.#bot.line.json(24, { protocol_version: VERSION, epoch: 1 });
    this.#bot.line.json(21, { protocol_version: VERSION, transition_id: 0 });
  }
}
