import type { APIApplicationCommandOption } from "discord-api-types/v10";
import { z } from "zod";
import { described, topOptions } from "./command-options.ts";

const permissionBits = z.string().regex(/^\d+$/);

type Counted = Pick<APIApplicationCommandOption, "name" | "description"> & {
  options?: readonly Counted[] | undefined;
  choices?: readonly { name: string; value: string | number }[] | undefined;
};

/** The characters that count towards the 8000 of a command ("Slash Commands", command size). */
export const commandSize = (command: Counted): number =>
  command.name.length +
  command.description.length +
  (command.choices ?? []).reduce(
    (sum, one) => sum + one.name.length + String(one.value).length,
    0,
  ) +
  (command.options ?? []).reduce((sum, one) => sum + commandSize(one), 0);

/** A slash command: 8000 characters in all. */
export const command = z
  .strictObject({
    ...described,
    type: z.literal(1).optional(),
    options: topOptions.optional(),
    default_member_permissions: permissionBits.nullable().optional(),
    dm_permission: z.boolean().nullable().optional(),
    default_permission: z.boolean().nullable().optional(),
    nsfw: z.boolean().optional(),
    integration_types: z.array(z.literal([0, 1])).optional(),
    contexts: z
      .array(z.literal([0, 1, 2]))
      .nullable()
      .optional(),
  })
  .superRefine((one, context) => {
    if (commandSize(one as Counted) <= 8000) return;
    context.addIssue({
      code: "custom",
      message: "Command exceeds maximum size (8000)",
      params: { code: "APPLICATION_COMMAND_TOO_LARGE" },
    });
  });

/** Up to 100 slash commands a scope, names unique ("Registering a Command"). */
export const commands = z
  .array(command)
  .max(100)
  .superRefine((all, context) => {
    all.forEach((one, index) => {
      if (!all.slice(0, index).some((other) => other.name === one.name)) return;
      context.addIssue({
        code: "custom",
        path: [index],
        message: "Application command names must be unique",
        params: { code: "APPLICATION_COMMANDS_DUPLICATE_NAME" },
      });
    });
  });
