/** A request the service refuses, with the status and JSON error code it would give. */
export class Refusal extends Error {
  readonly status: number;
  readonly code: number;
  readonly errors: object | undefined;
  /** Added to the body and headers, as a rate limit does. */
  readonly retryAfter: number | undefined;
  /** Due to what somebody else did meanwhile: no fault of the bot. */
  readonly raced: boolean;

  constructor(
    status: number,
    code: number,
    message: string,
    more: { errors?: object; retryAfter?: number; raced?: boolean } = {},
  ) {
    super(message);
    this.status = status;
    this.code = code;
    this.errors = more.errors;
    this.retryAfter = more.retryAfter;
    this.raced = more.raced ?? false;
  }

  body(): object {
    return {
      message: this.message,
      code: this.code,
      ...(this.errors === undefined ? {} : { errors: this.errors }),
      ...(this.retryAfter === undefined ? {} : { retry_after: this.retryAfter, global: false }),
    };
  }
}

/** Codes and messages: "Opcodes and Status Codes", JSON error codes. */
export const refusals = {
  unauthorized: () => new Refusal(401, 0, "401: Unauthorized"),
  unknownRoute: () => new Refusal(404, 0, "404: Not Found"),
  unknownApplication: () => new Refusal(404, 10002, "Unknown Application"),
  unknownChannel: () => new Refusal(404, 10003, "Unknown Channel"),
  unknownGuild: () => new Refusal(404, 10004, "Unknown Guild"),
  unknownMember: () => new Refusal(404, 10007, "Unknown Member"),
  unknownMessage: () => new Refusal(404, 10008, "Unknown Message"),
  unknownUser: () => new Refusal(404, 10013, "Unknown User"),
  unknownWebhook: () => new Refusal(404, 10015, "Unknown Webhook"),
  unknownInteraction: () => new Refusal(404, 10062, "Unknown interaction"),
  unknownCommand: () => new Refusal(404, 10063, "Unknown application command"),
  tooManyAttachments: () =>
    new Refusal(400, 30015, "Maximum number of attachments in a message reached (10)"),
  tooManyOldEdits: (retryAfter: number) =>
    new Refusal(
      429,
      30046,
      "Maximum number of edits to messages older than 1 hour reached. Try again later",
      { retryAfter },
    ),
  tooLarge: () => new Refusal(413, 40005, "Request entity too large"),
  alreadyAcknowledged: () => new Refusal(400, 40060, "Interaction has already been acknowledged."),
  missingAccess: () => new Refusal(403, 50001, "Missing Access"),
  notYourMessage: () => new Refusal(403, 50005, "Cannot edit a message authored by another user"),
  emptyMessage: () => new Refusal(400, 50006, "Cannot send an empty message"),
  cannotDm: () => new Refusal(403, 50007, "Cannot send messages to this user"),
  notText: () => new Refusal(400, 50008, "Cannot send messages in a non-text channel"),
  missingPermissions: () => new Refusal(403, 50013, "Missing Permissions"),
  invalidWebhookToken: () => new Refusal(401, 50027, "Invalid Webhook Token"),
  invalidJson: () => new Refusal(400, 50109, "The request body contains invalid JSON."),
  noMutualGuild: () =>
    new Refusal(403, 50278, "Cannot send messages to this user due to having no mutual guilds"),
} as const;
