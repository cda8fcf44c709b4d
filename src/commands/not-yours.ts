import { refuse } from "../reply/reply.ts";

/** What somebody hears who may not do that. */
export const notYours = refuse(
  "not-yours",
  "Only the owner of the bench may do that; in Discord, a member who may manage the server.",
  { say: "Only the owner of the bench may do that." },
);
