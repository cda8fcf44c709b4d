import type { EarEvent } from "../../speech/ear/listener.ts";
import type { Ear } from "../../speech/ear/open-ear.ts";
import type { OwnNames } from "../../speech/grammar/own-names.ts";

export type CallEarsParts = {
  /** Begins an ear: a thread with the recogniser, ready after some seconds. */
  readonly open: (tell: (event: EarEvent) => void) => Ear;
  readonly tell: (person: string, event: EarEvent) => void;
  /** An ear of nobody's broke, or nothing can be heard at all. */
  readonly onFault: (line: string) => void;
  /** Is there memory for one more? The first is begun in any case. */
  readonly isRoom: () => boolean;
  /** Monotonic ms. */
  readonly now: () => number;
};

export type CallEars = {
  /** 16 kHz, one channel. */
  hear(person: string, pcm: Int16Array): void;
  /** They have stopped: what is under way is ended by a little silence. */
  end(person: string): void;
  names(names: OwnNames): void;
  close(): Promise<void>;
};

/** So many people are heard at once. */
export const MOST = 4;
/**
 * Resident memory, bytes, measured with the ear alone on x64 (DEVELOPERS, Voice): what the first ear
 * adds, with the libraries and the model, and what each further one adds at most.
 */
export const FIRST_EAR = 430e6;
export const NEXT_EAR = 360e6;
/** So much has to be free for one more: what it takes, and room for what goes on beside it. */
export const FOR_AN_EAR = 600e6;
const PIECE = 320;
/** Silence behind the last word, in pieces of 20 ms: longer than an utterance needs to end. */
const BEHIND = 25;

type One = {
  readonly ear: Ear;
  person: string | undefined;
  speaking: boolean;
  at: number;
};

/**
 * An ear for each person in a call, and one in reserve, so that whoever speaks first is heard at
 * once. When all are taken, whoever was silent longest gives theirs up.
 */
export function openCallEars({ open, tell, onFault, isRoom, now }: CallEarsParts): CallEars {
  const all: One[] = [];
  let known: OwnNames | undefined;
  let deaf = false;
  let closed = false;

  const reserve = (): void => {
    if (deaf || closed || all.length >= MOST) return;
    if (all.length > 0 && !isRoom()) return;
    if (all.some(({ person }) => person === undefined)) return;
    const one: One = {
      ear: open((event) => {
        if (event.kind === "fault") {
          deaf ||= event.gone;
          return onFault(event.line);
        }
        if (one.person !== undefined) tell(one.person, event);
      }),
      person: undefined,
      speaking: false,
      at: 0,
    };
    all.push(one);
    if (known !== undefined) one.ear.names(known);
  };
  reserve();

  const earOf = (person: string): One | undefined => {
    const own = all.find((one) => one.person === person);
    if (own !== undefined) return own;
    const silent = all.filter(({ speaking }) => !speaking).toSorted((a, b) => a.at - b.at);
    const free = silent.find((one) => one.person === undefined) ?? silent[0];
    if (free === undefined) return undefined;
    free.person = person;
    reserve();
    return free;
  };

  return {
    hear(person, pcm) {
      const one = earOf(person);
      if (one === undefined) return;
      one.speaking = true;
      one.at = now();
      one.ear.feed(pcm, one.at);
    },
    end(person) {
      const one = all.find((each) => each.person === person);
      if (one === undefined) return;
      one.speaking = false;
      const from = now();
      for (let piece = 1; piece <= BEHIND; piece += 1) {
        one.ear.feed(new Int16Array(PIECE), from + piece * 20);
      }
    },
    names(names) {
      known = names;
      for (const { ear } of all) ear.names(names);
    },
    async close() {
      closed = true;
      await Promise.all(all.map(({ ear }) => ear.close()));
    },
  };
}
