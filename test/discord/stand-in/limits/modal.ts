import { ComponentType, TextInputStyle } from "discord-api-types/v10";
import { z } from "zod";
import { customId, customIds, entitySelect, numbered, stringSelect } from "./components.ts";

/** Text inputs: lengths to 4000, placeholder 100 (Component reference, "Text Input"). */
const textInputShape = {
  ...numbered,
  type: z.literal(ComponentType.TextInput),
  custom_id: customId,
  style: z.literal([TextInputStyle.Short, TextInputStyle.Paragraph]),
  min_length: z.int().min(0).max(4000).optional(),
  max_length: z.int().min(1).max(4000).optional(),
  required: z.boolean().optional(),
  value: z.string().max(4000).optional(),
  placeholder: z.string().max(100).optional(),
};

type Input = {
  value?: string | undefined;
  min_length?: number | undefined;
  max_length?: number | undefined;
};

function fits(input: Input, context: z.RefinementCtx): void {
  const { value, min_length: least = 0, max_length: most = 4000 } = input;
  if (least > most)
    context.addIssue({ code: "custom", path: ["min_length"], message: "min above max" });
  if (value !== undefined && value !== "" && (value.length < least || value.length > most))
    context.addIssue({
      code: "custom",
      path: ["value"],
      message: `Must be between ${least} and ${most} in length.`,
      params: { code: "BASE_TYPE_BAD_LENGTH" },
    });
}

/** Inside a label, which carries the words; "Text Input" on its own must name itself. */
const textInput = z.strictObject(textInputShape).superRefine(fits);
const namedTextInput = z
  .strictObject({ ...textInputShape, label: z.string().min(1).max(45) })
  .superRefine(fits);

/** Label 45, description 100 ("Label"). */
const label = z.strictObject({
  ...numbered,
  type: z.literal(ComponentType.Label),
  label: z.string().min(1).max(45),
  description: z.string().max(100).optional(),
  component: z.discriminatedUnion("type", [textInput, stringSelect, entitySelect]),
});

const row = z.strictObject({
  ...numbered,
  type: z.literal(ComponentType.ActionRow),
  components: z.array(namedTextInput).length(1),
});

const text = z.strictObject({
  ...numbered,
  type: z.literal(ComponentType.TextDisplay),
  content: z.string().min(1).max(4000),
});

/** Title 45, one to five components, custom ids unique (Interactions, "Modal"). */
export const modal = z
  .strictObject({
    custom_id: customId,
    title: z.string().min(1).max(45),
    components: z
      .array(z.discriminatedUnion("type", [label, row, text]))
      .min(1)
      .max(5),
  })
  .superRefine((form, context) => {
    const ids = customIds(form.components);
    if (new Set(ids).size === ids.length) return;
    context.addIssue({
      code: "custom",
      path: ["components"],
      message: "Component custom id cannot be duplicated",
      params: { code: "COMPONENT_CUSTOM_ID_DUPLICATED" },
    });
  });
