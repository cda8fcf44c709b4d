import type { Given } from "../domain/reminders/give.ts";
import type { UndoStep } from "./record.ts";

/**
 * The steps that can still be taken back once these were told. A step that touches a told reminder
 * would bring it back: it goes, and so do the older ones, which only fit what stood before it.
 */
export function undoAfter(undo: readonly UndoStep[], given: readonly Given[]): readonly UndoStep[] {
  const told = new Set(
    given.flatMap(({ event }) =>
      event.kind === "daily" ? event.reminders.map(({ id }) => id) : [event.reminder.id],
    ),
  );
  const daily = given.some(({ event }) => event.kind === "daily");
  const touches = ({ changes }: UndoStep): boolean =>
    changes.some(({ path: [head, id] }) => {
      if (head === "dailyLook") return daily;
      return head === "reminders" && (id === undefined || told.has(String(id)));
    });
  return undo.slice(undo.findLastIndex(touches) + 1);
}
