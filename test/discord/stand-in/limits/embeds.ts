import { z } from "zod";

const link = z.string().regex(/^(https?|attachment):\/\/\S+$/);

/** Embed limits (Message resource, "Embed Limits"). Text is measured trimmed. */
const embed = z.strictObject({
  title: z.string().trim().max(256).optional(),
  type: z.literal("rich").optional(),
  description: z.string().trim().max(4096).optional(),
  url: link.optional(),
  timestamp: z.iso.datetime({ offset: true }).optional(),
  color: z.int().min(0).max(0xffffff).nullable().optional(),
  footer: z
    .strictObject({ text: z.string().trim().max(2048), icon_url: link.optional() })
    .optional(),
  image: z.strictObject({ url: link }).optional(),
  thumbnail: z.strictObject({ url: link }).optional(),
  author: z
    .strictObject({
      name: z.string().trim().max(256),
      url: link.optional(),
      icon_url: link.optional(),
    })
    .optional(),
  fields: z
    .array(
      z.strictObject({
        name: z.string().trim().min(1).max(256),
        value: z.string().trim().min(1).max(1024),
        inline: z.boolean().optional(),
      }),
    )
    .max(25)
    .optional(),
});

const lengthOf = (one: z.infer<typeof embed>): number =>
  [
    one.title,
    one.description,
    one.footer?.text,
    one.author?.name,
    ...(one.fields ?? []).flatMap(({ name, value }) => [name, value]),
  ].reduce((sum, text) => sum + (text?.length ?? 0), 0);

/** At most 10 embeds (Create Message) with 6000 characters in all ("Embed Limits"). */
export const embeds = z
  .array(embed)
  .max(10)
  .superRefine((all, context) => {
    if (all.reduce((sum, one) => sum + lengthOf(one), 0) <= 6000) return;
    context.addIssue({
      code: "custom",
      message: "Embed size exceeds maximum size of 6000",
      params: { code: "MAX_EMBED_SIZE_EXCEEDED" },
    });
  });
