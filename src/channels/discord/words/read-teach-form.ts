import type { BenchRecord } from "../../../conversation/record.ts";
import { type Reply, refuse } from "../../../reply/reply.ts";
import { cleanIncoming } from "./clean-incoming.ts";
import { customId } from "./custom-id.ts";
import { FORM, formPage, sheetKey } from "./teach-form.ts";

/** A filled field: the id of its question, and what was typed. */
export type FormAnswer = { readonly id: string; readonly text: string };

/** A filled form as the gateway sends it; fields stand in labels or, in older clients, in rows. */
export type FormData = {
  readonly custom_id: string;
  readonly components: readonly {
    readonly component?: { readonly custom_id: string; readonly value?: unknown };
    readonly components?: readonly { readonly custom_id: string; readonly value?: unknown }[];
  }[];
};

/**
 * The answers on a page, in the order of its questions; one left empty means that the sheet does
 * not say. Refused when the form is another bench's, damaged, or of a sheet that has changed since.
 */
export function readTeachForm(
  data: FormData,
  { benchKey, record }: { readonly benchKey: string; readonly record: BenchRecord },
): { readonly answers: readonly FormAnswer[] } | { readonly refusal: Reply } {
  const read = customId.read(data.custom_id);
  if (read.kind !== "button" || read.word !== FORM) {
    return no("not-our-form", "That form is none of mine, or is damaged. Say learn a sheet.");
  }
  if (read.bench !== benchKey) {
    return no("other-bench", "That form belongs to another bench. Nothing was changed here.");
  }
  const { draft } = record.bench;
  if (read.asked !== sheetKey(draft)) {
    return no("old-form", "The sheet has changed since that form was opened. Open it again.");
  }
  const filled = new Map(
    data.components
      .flatMap(({ component, components = [] }) =>
        component === undefined ? components : [component],
      )
      .map(({ custom_id: id, value }) => [id, typeof value === "string" ? value : ""] as const),
  );
  const answers = formPage(draft).flatMap(({ id, optional }): readonly FormAnswer[] => {
    const typed = filled.get(id);
    if (typed === undefined) return [];
    const heard = cleanIncoming(typed);
    const text = "text" in heard ? heard.text : typed.slice(0, 400);
    return text === "" && optional ? [{ id, text: "skip" }] : [{ id, text }];
  });
  return { answers };
}

const no = (reason: string, title: string): { readonly refusal: Reply } => ({
  refusal: refuse(reason, title),
});
