import {
  type APIApplicationCommandOption,
  ApplicationCommandOptionType as Type,
} from "discord-api-types/v10";
import { z } from "zod";

/**
 * Names (Application Commands, "Application Command Naming"): 1 to 32 letters, numbers, dashes,
 * underscores, apostrophes; lower case wherever there is one.
 */
const NAME = /^[-_'\p{L}\p{N}\p{sc=Deva}\p{sc=Thai}]{1,32}$/u;
const name = z
  .string()
  .min(1)
  .max(32)
  .regex(NAME)
  .refine((text) => text === text.toLowerCase(), {
    message: "Command name is invalid",
    params: { code: "APPLICATION_COMMAND_INVALID_NAME" },
  });
const description = z.string().min(1).max(100);
const localised = z.record(z.string(), z.string().max(100)).nullable().optional();

const shared = {
  name,
  description,
  name_localizations: localised,
  description_localizations: localised,
};

/** Up to 25 choices, their names 1 to 100, text values up to 100 ("Option Choice Structure"). */
export const choice = z.strictObject({
  name: z.string().min(1).max(100),
  name_localizations: localised,
  value: z.union([z.string().max(100), z.number()]),
});

const required = z.boolean().optional();
const autocomplete = z.boolean().optional();
const choices = z.array(choice).max(25).optional();

type Choosing = {
  choices?: readonly { name: string; value: string | number }[] | undefined;
  autocomplete?: boolean | undefined;
};

/** Autocomplete and fixed choices exclude each other ("Option Structure"). */
function choosesOneWay(option: Choosing, context: z.RefinementCtx): void {
  if (option.autocomplete === true && (option.choices?.length ?? 0) > 0)
    context.addIssue({
      code: "custom",
      path: ["autocomplete"],
      message: "Autocomplete cannot be used with choices.",
      params: { code: "APPLICATION_COMMAND_AUTOCOMPLETE_CHOICES" },
    });
  const names = (option.choices ?? []).map((one) => one.name);
  if (new Set(names).size < names.length)
    context.addIssue({
      code: "custom",
      path: ["choices"],
      message: "Application command option choice names must be unique",
      params: { code: "APPLICATION_COMMAND_OPTIONS_CHOICE_NAME_NON_UNIQUE" },
    });
}

const value = z.union([
  z
    .strictObject({
      ...shared,
      type: z.literal(Type.String),
      required,
      autocomplete,
      choices,
      min_length: z.int().min(0).max(6000).optional(),
      max_length: z.int().min(1).max(6000).optional(),
    })
    .superRefine(choosesOneWay),
  z
    .strictObject({
      ...shared,
      type: z.literal([Type.Integer, Type.Number]),
      required,
      autocomplete,
      choices,
      min_value: z.number().optional(),
      max_value: z.number().optional(),
    })
    .superRefine(choosesOneWay),
  z.strictObject({
    ...shared,
    type: z.literal([Type.Boolean, Type.User, Type.Role, Type.Mentionable, Type.Attachment]),
    required,
  }),
  z.strictObject({
    ...shared,
    type: z.literal(Type.Channel),
    required,
    channel_types: z.array(z.int()).optional(),
  }),
]);

type Named = { readonly name: string; readonly required?: boolean | undefined };

/** Names unique, required ones first ("Option Structure"). */
function inOrder(options: readonly Named[], context: z.RefinementCtx): void {
  const refuse = (index: number, code: string, message: string): void =>
    context.addIssue({ code: "custom", path: [index], message, params: { code } });
  options.forEach((option, index) => {
    const before = options.slice(0, index);
    if (before.some((other) => other.name === option.name))
      refuse(index, "APPLICATION_COMMAND_OPTIONS_NAME_NON_UNIQUE", "Option names must be unique");
    if (option.required === true && before.some((other) => other.required !== true))
      refuse(
        index,
        "APPLICATION_COMMAND_OPTIONS_REQUIRED_INVALID",
        "Required options must be placed before non-required options",
      );
  });
}

const values = z.array(value).max(25).superRefine(inOrder);
const subcommand = z.strictObject({
  ...shared,
  type: z.literal(Type.Subcommand),
  options: values.optional(),
});
const group = z.strictObject({
  ...shared,
  type: z.literal(Type.SubcommandGroup),
  options: z.array(subcommand).max(25).superRefine(inOrder).optional(),
});
const branches = z
  .array(z.union([subcommand, group]))
  .max(25)
  .superRefine(inOrder);

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

/** A slash command: subcommands or values, never both side by side; 8000 characters in all. */
export const command = z
  .strictObject({
    ...shared,
    type: z.literal(1).optional(),
    options: z.union([branches, values]).optional(),
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
