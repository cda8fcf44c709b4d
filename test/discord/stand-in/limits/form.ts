import type { z } from "zod";
import { Refusal } from "../rest/refusal.ts";

type Issue = z.core.$ZodIssue;

/** How a form error reads (API reference, "Error Messages"; the single codes are from memory). */
function wording(issue: Issue): { code: string; message: string } {
  switch (issue.code) {
    case "too_big":
      return issue.origin === "string"
        ? {
            code: "BASE_TYPE_MAX_LENGTH",
            message: `Must be ${issue.maximum} or fewer in length.`,
          }
        : issue.origin === "array"
          ? {
              code: "BASE_TYPE_BAD_LENGTH",
              message: `Must be ${issue.maximum} or fewer in length.`,
            }
          : {
              code: "NUMBER_TYPE_MAX",
              message: `int value should be less than or equal to ${issue.maximum}.`,
            };
    case "too_small":
      return issue.origin === "string" || issue.origin === "array"
        ? {
            code: "BASE_TYPE_BAD_LENGTH",
            message: `Must be ${issue.minimum} or more in length.`,
          }
        : {
            code: "NUMBER_TYPE_MIN",
            message: `int value should be greater than or equal to ${issue.minimum}.`,
          };
    case "invalid_type":
      return issue.input === undefined
        ? { code: "BASE_TYPE_REQUIRED", message: "This field is required" }
        : { code: "BASE_TYPE_CONVERT", message: `Could not interpret as ${issue.expected}.` };
    case "invalid_value":
      return {
        code: "BASE_TYPE_CHOICES",
        message: `Value must be one of {${issue.values.map(String).join(", ")}}.`,
      };
    case "invalid_format":
      return {
        code: "STRING_TYPE_REGEX",
        message: "String value did not match validation regex.",
      };
    case "custom":
      return {
        code: String(issue.params?.code ?? "BASE_TYPE_CHOICES"),
        message: issue.message,
      };
    default:
      return { code: "BASE_TYPE_CHOICES", message: issue.message };
  }
}

type Errors = { [key: string]: Errors } & {
  _errors?: { code: string; message: string }[];
};

/** The nested `errors` object: one level a step of the path, `_errors` at the place itself. */
export function nestErrors(issues: readonly Issue[]): object {
  const root = {} as Errors;
  for (const issue of issues) {
    let place = root;
    for (const step of issue.path) {
      const key = String(step);
      place[key] ??= {} as Errors;
      place = place[key];
    }
    (place as { _errors?: object[] })._errors = [...(place._errors ?? []), wording(issue)];
  }
  return root;
}

const innermost = (issues: readonly Issue[]): Issue[] =>
  issues.flatMap((issue) => {
    if (issue.code !== "invalid_union" || issue.errors.length === 0) return [issue];
    const [closest = []] = [...issue.errors].sort((a, b) => a.length - b.length);
    return innermost(
      closest.map((inner) => ({ ...inner, path: [...issue.path, ...inner.path] }) as Issue),
    );
  });

/** Told of a field the service does not know: it ignores them; we do not. */
export type Unknown = (where: string) => void;

/**
 * Reads a request body by its schema.
 * @throws Refusal 50035 with the nested errors
 */
export function readForm<T>(schema: z.ZodType<T>, body: unknown, unknown: Unknown): T {
  const read = schema.safeParse(body, { reportInput: true });
  if (read.success) return read.data;
  const issues = innermost(read.error.issues);
  for (const issue of issues) {
    if (issue.code !== "unrecognized_keys") continue;
    for (const key of issue.keys) unknown([...issue.path, key].join("."));
  }
  throw new Refusal(400, 50035, "Invalid Form Body", { errors: nestErrors(issues) });
}
