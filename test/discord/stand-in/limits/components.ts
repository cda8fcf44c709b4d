import { ButtonStyle, ComponentType } from "discord-api-types/v10";
import { z } from "zod";

/** 1 to 100 characters (Component reference, "Custom ID"). */
export const customId = z.string().min(1).max(100);
/** Any component may carry one ("Anatomy of a Component"). */
export const numbered = { id: z.int().min(0).optional() };

const emoji = z.strictObject({
  id: z.string().nullable().optional(),
  name: z.string().nullable().optional(),
  animated: z.boolean().optional(),
});

/** A button has a custom id or a link, never both, and something to see ("Button"). */
const button = z
  .strictObject({
    ...numbered,
    type: z.literal(ComponentType.Button),
    style: z.literal([
      ButtonStyle.Primary,
      ButtonStyle.Secondary,
      ButtonStyle.Success,
      ButtonStyle.Danger,
      ButtonStyle.Link,
    ]),
    label: z.string().max(80).optional(),
    emoji: emoji.optional(),
    custom_id: customId.optional(),
    url: z
      .string()
      .max(512)
      .regex(/^(https?|discord):\/\/\S+$/)
      .optional(),
    disabled: z.boolean().optional(),
  })
  .superRefine((one, context) => {
    const refuse = (path: string, code: string, message: string): void =>
      context.addIssue({ code: "custom", path: [path], message, params: { code } });
    const link = one.style === ButtonStyle.Link;
    if (link && one.url === undefined)
      refuse("url", "BASE_TYPE_REQUIRED", "A url is required for link buttons.");
    if (link && one.custom_id !== undefined)
      refuse("custom_id", "BUTTON_COMPONENT_CUSTOM_ID_URL_MUTUALLY_EXCLUSIVE", "Either, not both.");
    if (!link && one.custom_id === undefined)
      refuse("custom_id", "BUTTON_COMPONENT_CUSTOM_ID_REQUIRED", "A custom id is required.");
    if (!link && one.url !== undefined)
      refuse("url", "BUTTON_COMPONENT_INVALID_STYLE", "Only link buttons have a url.");
    if ((one.label ?? "") === "" && one.emoji === undefined)
      refuse("label", "BUTTON_COMPONENT_INVALID_LABEL", "A label or an emoji is required.");
  });

/** Select menus: placeholder 150, 25 options, counts 0 to 25 ("String Select" and the others). */
const selectBase = {
  ...numbered,
  custom_id: customId,
  placeholder: z.string().max(150).optional(),
  min_values: z.int().min(0).max(25).optional(),
  max_values: z.int().min(1).max(25).optional(),
  disabled: z.boolean().optional(),
  required: z.boolean().optional(),
};

export const stringSelect = z
  .strictObject({
    ...selectBase,
    type: z.literal(ComponentType.StringSelect),
    options: z
      .array(
        z.strictObject({
          label: z.string().min(1).max(100),
          value: z.string().min(1).max(100),
          description: z.string().max(100).optional(),
          emoji: emoji.optional(),
          default: z.boolean().optional(),
        }),
      )
      .min(1)
      .max(25),
  })
  .superRefine(({ options }, context) => {
    if (new Set(options.map(({ value }) => value)).size === options.length) return;
    context.addIssue({
      code: "custom",
      path: ["options"],
      message: "The specified option value is already used",
      params: { code: "SELECT_COMPONENT_OPTION_VALUE_DUPLICATED" },
    });
  });

export const entitySelect = z.strictObject({
  ...selectBase,
  type: z.literal([
    ComponentType.UserSelect,
    ComponentType.RoleSelect,
    ComponentType.MentionableSelect,
    ComponentType.ChannelSelect,
  ]),
  channel_types: z.array(z.int()).optional(),
  default_values: z
    .array(z.strictObject({ id: z.string(), type: z.enum(["user", "role", "channel"]) }))
    .optional(),
});

/** Up to five buttons or one select ("Action Row"). */
const actionRow = z.strictObject({
  ...numbered,
  type: z.literal(ComponentType.ActionRow),
  components: z.union([
    z.array(button).min(1).max(5),
    z.array(z.union([stringSelect, entitySelect])).length(1),
  ]),
});

/** All custom ids inside, in order. */
export function customIds(value: unknown): string[] {
  if (Array.isArray(value)) return value.flatMap(customIds);
  if (typeof value !== "object" || value === null) return [];
  const own = "custom_id" in value && typeof value.custom_id === "string" ? [value.custom_id] : [];
  const under = ["components", "component"].flatMap((key) =>
    key in value ? customIds((value as Record<string, unknown>)[key]) : [],
  );
  return [...own, ...under];
}

/** Five rows, custom ids unique in the message ("Custom ID", "Action Row"). */
export const components = z
  .array(actionRow)
  .max(5)
  .superRefine((rows, context) => {
    const ids = customIds(rows);
    const twice = ids.find((id, index) => ids.indexOf(id) !== index);
    if (twice === undefined) return;
    context.addIssue({
      code: "custom",
      message: "Component custom id cannot be duplicated",
      params: { code: "COMPONENT_CUSTOM_ID_DUPLICATED" },
    });
  });
