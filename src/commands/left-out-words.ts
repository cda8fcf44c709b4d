import type { LeftOut } from "../domain/record/for-sharing.ts";

/** What stays on the bench, counted: "2 notes, 1 name of a person". */
export function leftOutWords({ notes, people, places, rolls, names }: LeftOut): string {
  const parts = [
    count(notes, "private note"),
    count(people, "person", "people"),
    count(places, "place"),
    count(rolls, "roll's name or note", "rolls' names or notes"),
    ...(names === 0 ? [] : [`${count(names, "name")} inside a label`]),
  ].filter((part) => part !== "");
  return parts.length === 0 ? "nothing: there is nothing private in it" : parts.join(", ");
}

const count = (many: number, one: string, more = `${one}s`): string =>
  many === 0 ? "" : `${many} ${many === 1 ? one : more}`;
