import { ApplicationCommandOptionType as Type } from "discord-api-types/v10";
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

export const described = {
  name,
  description,
  name_localizations: localised,
  description_localizations: localised,
};

/** Up to 25 choices, their names 1 to 100, text values up to 100 ("Option Choice Structure"). */
const choiceOf = <T extends z.ZodType>(value: T) =>
  z.strictObject({ name: z.string().min(1).max(100), name_localizations: localised, value });
const words = z.string().min(1).max(100);
/** "Any integer between -2^53+1 and 2^53-1", "any double between -2^53 and 2^53" ("Option Type"). */
const whole = z.int();
const real = z
  .number()
  .min(-(2 ** 53))
  .max(2 ** 53);
/** An autocomplete choice, of whichever kind its option is. */
export const choice = choiceOf(z.union([words, real]));

const required = z.boolean().optional();
const autocomplete = z.boolean().optional();
const choices = <T extends z.ZodType>(value: T) => z.array(choiceOf(value)).max(25).optional();

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

const valueKinds = [
  z
    .strictObject({
      ...described,
      type: z.literal(Type.String),
      required,
      autocomplete,
      choices: choices(words),
      min_length: z.int().min(0).max(6000).optional(),
      max_length: z.int().min(1).max(6000).optional(),
    })
    .superRefine(choosesOneWay),
  z
    .strictObject({
      ...described,
      type: z.literal(Type.Integer),
      required,
      autocomplete,
      choices: choices(whole),
      min_value: whole.optional(),
      max_value: whole.optional(),
    })
    .superRefine(choosesOneWay),
  z
    .strictObject({
      ...described,
      type: z.literal(Type.Number),
      required,
      autocomplete,
      choices: choices(real),
      min_value: real.optional(),
      max_value: real.optional(),
    })
    .superRefine(choosesOneWay),
  z.strictObject({
    ...described,
    type: z.literal([Type.Boolean, Type.User, Type.Role, Type.Mentionable, Type.Attachment]),
    required,
  }),
  z.strictObject({
    ...described,
    type: z.literal(Type.Channel),
    required,
    channel_types: z.array(z.int()).optional(),
  }),
] as const;
const value = z.discriminatedUnion("type", valueKinds);

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
  ...described,
  type: z.literal(Type.Subcommand),
  options: values.optional(),
});
const group = z.strictObject({
  ...described,
  type: z.literal(Type.SubcommandGroup),
  options: z.array(subcommand).max(25).superRefine(inOrder).optional(),
});

const isBranch = ({ type }: { readonly type: Type }): boolean =>
  type === Type.Subcommand || type === Type.SubcommandGroup;

/** Subcommands or values, never side by side ("Subcommands and Subcommand Groups"). */
export const topOptions = z
  .array(z.discriminatedUnion("type", [...valueKinds, subcommand, group]))
  .max(25)
  .superRefine((all, context) => {
    inOrder(all as readonly Named[], context);
    if (!all.some(isBranch) || all.every(isBranch)) return;
    context.addIssue({
      code: "custom",
      message: "Sub-command and sub-command group option types are mutually exclusive to others",
      params: { code: "APPLICATION_COMMAND_OPTIONS_TYPE_INVALID" },
    });
  });
