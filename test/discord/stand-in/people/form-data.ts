import { ComponentType } from "discord-api-types/v10";
import type { FormShown } from "./interaction-handle.ts";

type Field = {
  readonly type: number;
  readonly custom_id: string;
  readonly label?: string;
  readonly required?: boolean;
  readonly min_length?: number;
  readonly max_length?: number;
  readonly value?: string;
  readonly options?: readonly { readonly value: string }[];
};

/** What a user enters, by custom id or by label; a list for a select. */
export type FormValues = Readonly<Record<string, string | readonly string[]>>;

/**
 * A filled form as sent ("Modal Submit Data Structure").
 * @throws when the user's program would not let it go: a required field empty, a text too long
 */
export function formData(form: FormShown, values: FormValues): object {
  const left = new Set(Object.keys(values));
  const fill = (field: Field, label: string): object => {
    const key = values[field.custom_id] === undefined ? label : field.custom_id;
    left.delete(key);
    const base = { type: field.type, id: 1, custom_id: field.custom_id };
    if (field.type !== ComponentType.TextInput)
      return { ...base, values: [values[key] ?? []].flat() };
    const value = String(values[key] ?? field.value ?? "");
    check(field, label, value);
    return { ...base, value };
  };
  const components = form.components.flatMap((part): object[] => {
    if (part.type === ComponentType.TextDisplay) return [];
    if (part.type === ComponentType.Label)
      return [{ type: part.type, id: 1, component: fill(part.component as Field, part.label) }];
    if (!("components" in part)) return [];
    const fields = part.components as unknown as Field[];
    return [
      { type: part.type, id: 1, components: fields.map((one) => fill(one, one.label ?? "")) },
    ];
  });
  if (left.size > 0) throw new Error(`The form has no field ${[...left].join(", ")}`);
  return { custom_id: form.custom_id, components };
}

function check(field: Field, label: string, value: string): void {
  const required = field.required ?? true;
  if (required && value === "") throw new Error(`${label} is required`);
  if (value === "") return;
  if (value.length < (field.min_length ?? 0)) throw new Error(`${label} is too short`);
  if (value.length > (field.max_length ?? 4000)) throw new Error(`${label} is too long`);
}
