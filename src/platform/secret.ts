import { inspect } from "node:util";

/** A value that shows itself to nobody who prints it, keeps it as JSON or joins it to a text. */
export class Secret {
  readonly #value: string;

  constructor(value: string) {
    this.#value = value;
  }

  /** The value itself, for the one place that must send it. */
  reveal(): string {
    return this.#value;
  }

  toString(): string {
    return "[secret]";
  }

  toJSON(): string {
    return "[secret]";
  }

  [inspect.custom](): string {
    return "[secret]";
  }
}
