import type { Command } from "../../../commands/define-command.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import type { Clock } from "../../../platform/clock.ts";
import type { Api } from "../delivery/api.ts";
import type { Attempts } from "../delivery/attempts.ts";
import type { Chat } from "../delivery/chat.ts";
import type { DirectMessages } from "../delivery/direct-messages.ts";
import type { Kept } from "../directory/kept.ts";
import type { Front, Place } from "../directory/record.ts";
import type { Budget } from "../people/budget.ts";
import type { Manages } from "../people/manages.ts";
import type { RolesOf } from "../people/roles-of.ts";
import type { Seen } from "../people/seen.ts";
import type { Room } from "../rooms/room.ts";
import type { Rooms } from "../rooms/rooms.ts";
import type { Calls } from "../voice/calls.ts";
import type { Typed } from "../words/teach-form.ts";

/** What hearing and answering need. */
export type Desk = {
  readonly rooms: Rooms;
  readonly commands: readonly Command[];
  readonly api: Api;
  readonly chat: Chat;
  readonly direct: DirectMessages;
  readonly attempts: Attempts;
  readonly front: Kept<Front>;
  readonly rolesOf: RolesOf;
  readonly clock: Clock;
  readonly now: () => Instant;
  /** The bot's own user id. */
  readonly bot: string;
  /** May somebody manage a server, as far as their roles and the library's memory tell? */
  readonly manages: Manages;
  readonly calls: Calls;
  readonly budget: Budget;
  /** For cries for first aid: heard also when the other is used up. */
  readonly aidBudget: Budget;
  /** For options being typed, where every letter asks. */
  readonly typingBudget: Budget;
  readonly seen: Seen;
  /** What somebody wrote directly before it was known for which bench. */
  readonly heldBack: Map<string, { readonly text: string; readonly at: number }>;
  /** What somebody typed into a form and was not taken, by bench and person. */
  readonly typed: Map<string, Typed>;
  readonly openRoom: (key: string, place: Place, zone: string | undefined) => Promise<Room>;
  readonly onFault: (error: unknown) => void;
};
