import { describes } from "./rest/match-route.ts";

/** Something that goes wrong with the next requests of a route. */
export type Fault = {
  /** "POST /channels/:channel/messages", or a path with real ids; every route when left out. */
  readonly route?: string;
  /** How many requests; 1 when left out. */
  readonly times?: number;
  /** Answers with this instead: 429, 500, 502, 503 ... */
  readonly status?: number;
  /** With 429: seconds to wait. 0 leaves out the headers as well. */
  readonly retryAfter?: number;
  /** With 429: "shared" does not count against the bot. */
  readonly scope?: "user" | "shared" | "global";
  /** Lets so many real ms go by before the answer. */
  readonly delayMs?: number;
  /** Closes the connection instead of answering; "hang" keeps it open and says nothing. */
  readonly drop?: boolean | "hang";
  /** Whether the request is carried out all the same. Delays are, the others not, when left out. */
  readonly performed?: boolean;
};

export type Faults = {
  /** Lies in wait for the next requests; the first that fits a request is used up first. */
  next(fault: Fault): void;
  take(method: string, template: string, path: string): Fault | undefined;
  /** How many requests are still to suffer. */
  left(): number;
  clear(): void;
};

export function createFaults(): Faults {
  let waiting: { fault: Fault; left: number }[] = [];
  return {
    next(fault) {
      waiting.push({ fault, left: fault.times ?? 1 });
    },
    take(method, template, path) {
      const entry = waiting.find(
        ({ fault }) => fault.route === undefined || describes(fault.route, method, template, path),
      );
      if (entry === undefined) return undefined;
      entry.left -= 1;
      waiting = waiting.filter(({ left }) => left > 0);
      return entry.fault;
    },
    left: () => waiting.reduce((sum, { left }) => sum + left, 0),
    clear() {
      waiting = [];
    },
  };
}
