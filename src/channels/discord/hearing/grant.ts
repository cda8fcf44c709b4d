import { faultReply } from "../../console/fault.ts";
import type { Room, Speaker } from "../rooms/room.ts";
import type { Wish } from "../voice/wishes.ts";
import type { Desk } from "./desk.ts";

/** Comes into a call or leaves it as a member wishes. Never rejects: what goes wrong is said. */
export async function grant(
  wish: Wish,
  room: Room,
  { id }: Speaker,
  { calls, onFault }: Desk,
): Promise<string> {
  if (wish === "leave") return calls.leave(room);
  try {
    return await calls.join(room, id);
  } catch (error) {
    onFault(error);
    return faultReply(error).title;
  }
}
