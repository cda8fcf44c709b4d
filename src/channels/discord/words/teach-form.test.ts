import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { modal } from "../../../../test/discord/stand-in/limits/modal.ts";
import { gardenAnswers } from "../../../../test/support/garden-sheet.ts";
import { evening } from "../../../../test/support/runs.ts";
import { loadCommands } from "../../../commands/registry.ts";
import { type BenchRecord, newRecord } from "../../../conversation/record.ts";
import { type Message, openQuestion, turn } from "../../../conversation/turn.ts";
import type { Draft } from "../../../domain/session/draft.ts";
import { questionsOf } from "../../../domain/teaching/questions.ts";
import type { Reply } from "../../../reply/reply.ts";
import { customId } from "./custom-id.ts";
import { readPress } from "./read-press.ts";
import { type FormData, readTeachForm } from "./read-teach-form.ts";
import { renderReply } from "./render-reply.ts";
import { takeTeachForm } from "./take-teach-form.ts";
import { FORM, sheetKey, type Typed, teachForm } from "./teach-form.ts";

const commands = await loadCommands();
const benchKey = "100000000000000001";
const who = "Ines";

/** One person at a bench, who says things and fills in forms. */
function sitting() {
  let record: BenchRecord = newRecord("test", "Europe/Lisbon");
  let typed: Typed = {};
  const hear = (words: object): Promise<Reply> => {
    const turned = turn(record, { who, ...words } as Message, evening, commands);
    record = turned.record;
    return Promise.resolve(turned.reply);
  };
  const form = () => teachForm(record.bench.draft, benchKey, typed);
  return {
    hear,
    form,
    get record() {
      return record;
    },
    /** Fills in the open page by label; what is not given stays empty, or as it was. */
    async fill(values: Readonly<Record<string, string>>): Promise<Reply> {
      const page = form();
      if (page === undefined) throw new Error("nothing is left to fill in");
      expect(modal.safeParse(page).error).toBeUndefined();
      const data: FormData = {
        custom_id: page.custom_id,
        components: page.components.flatMap((part) => {
          if (!("component" in part) || !("custom_id" in part.component)) return [];
          const { custom_id } = part.component;
          const before = "value" in part.component ? part.component.value : undefined;
          return [{ component: { custom_id, value: values[part.label] ?? before ?? "" } }];
        }),
      };
      const read = readTeachForm(data, { benchKey, record });
      if ("refusal" in read) return read.refusal;
      const taken = await takeTeachForm(read.answers, hear, () => record.bench);
      typed = taken.typed;
      return taken.reply;
    },
  };
}

const labels = (one: ReturnType<typeof sitting>): readonly string[] =>
  (one.form()?.components ?? []).map((part) => ("label" in part ? String(part.label) : ""));

const head = { name: "garden", process: "C-41", measure: "millilitres", baths: "developer, wash" };

/** The invented garden sheet of the tests, as it would be typed off its paper. */
const developer = {
  "developer total": "1 litre",
  "developer time": "exactly 3:25",
  "developer temperature": "38.2 plus or minus 0.2",
  "developer agitation": "first 30 seconds, then 5 seconds every 30",
  "developer capacity": "8",
};

describe("a sheet taught by forms alone", () => {
  test("is the sheet that is taught by talking", async () => {
    const one = sitting();
    expect(labels(one)).toEqual(["name", "process", "measure", "baths"]);
    const first = await one.fill(head);
    expect(first.lines).toEqual([
      "name: garden",
      "process: C-41",
      "measure: millilitres",
      "baths: developer, wash",
    ]);
    expect(labels(one)).toEqual(Object.keys(developer));
    await one.fill(developer);
    expect(labels(one).slice(0, 3)).toEqual([
      "developer water",
      "developer warm",
      "developer parts",
    ]);
    await one.fill({
      "developer water": "700",
      "developer warm": "43",
      "developer parts": "A 100 ml, B, C 12 g powder",
      "developer keeps": "6 weeks",
    });
    let reply: Reply | undefined;
    for (let page = 0; page < 5 && one.form() !== undefined; page += 1) {
      reply = await one.fill({ "wash time": "at least 3:00" });
    }
    expect(reply?.title).toBe("This is what I have. Compare each line with the paper. Right?");
    expect(one.form()).toBeUndefined();
    await one.hear({ text: "yes" });
    const { taught } = one.record.bench;
    const told = Object.values(taught)[0];
    expect(told?.baths).toEqual(gardenAnswers.baths);
    for (const word of ["total", "water", "warm", "time", "temperature", "agitation"] as const) {
      expect(told?.bath?.developer?.[word], word).toEqual(gardenAnswers.bath?.developer?.[word]);
    }
    expect(told?.bath?.wash?.time).toEqual(gardenAnswers.bath?.wash?.time);
  });

  test("goes on in chat where the form left it, and the other way round", async () => {
    const one = sitting();
    await one.fill(head);
    expect((await one.hear({ text: "1 litre" })).title).toContain("Developer total: 1 L");
    expect(labels(one)[0]).toBe("developer water");
  });
});

describe("what cannot be", () => {
  test("is said with what was read; the same page comes again with it, the rest is kept", async () => {
    const one = sitting();
    await one.fill(head);
    const reply = await one.fill({
      ...developer,
      "developer time": "soon",
      "developer capacity": "0",
    });
    expect(reply.kind).toBe("refusal");
    expect(reply.title).toBe("2 answers I could not take; the others are kept.");
    expect(reply.lines.slice(0, 2)).toEqual([
      'developer time: I heard "soon". Give me a time, like 3:15 or 6 minutes.',
      "developer capacity: 0 rolls is not plausible for one batch. Read it again.",
    ]);
    expect(reply.lines).toContain("developer total: 1 L");
    const page = one.form();
    const values = page?.components.flatMap((part) =>
      "component" in part && "value" in part.component ? [part.component.value] : [],
    );
    expect(values).toEqual(["soon", "0"]);
    await one.fill({ "developer time": "3:25", "developer capacity": "8" });
    expect(one.record.bench.draft?.answers.bath?.developer).toMatchObject({ capacity: 8 });
  });

  test("is a form of another bench, of a sheet that has changed, or a damaged one", async () => {
    const one = sitting();
    const page = one.form();
    await one.fill(head);
    const read = (custom_id: string) => {
      const found = readTeachForm({ custom_id, components: [] }, { benchKey, record: one.record });
      return "refusal" in found ? found.refusal.facts.reason : "none";
    };
    expect(read(page?.custom_id ?? "")).toBe("old-form");
    const asked = sheetKey(one.record.bench.draft);
    expect(read(customId.make({ bench: "2", word: FORM, asked }))).toBe("other-bench");
    expect(read(customId.make({ bench: benchKey, word: "in", asked }))).toBe("not-our-form");
    expect(read("form")).toBe("not-our-form");
  });

  test("first aid called for in a form is given at once", async () => {
    const one = sitting();
    const reply = await one.fill({ ...head, name: "blix in my eyes" });
    expect(reply.facts.kind).toBe("eyes");
  });
});

test("while a sheet is being taught, every question has the button of the form", async () => {
  const one = sitting();
  const reply = await one.hear({ text: "learn a sheet" });
  const { bench } = one.record;
  const question = openQuestion(one.record, who, evening);
  const [message] = renderReply(reply, { bench, benchKey, mode: "bench", now: evening, question });
  const shown = message?.components[0]?.components[0];
  const id = shown !== undefined && "custom_id" in shown ? shown.custom_id : "";
  const meant = readPress(id, { benchKey, record: one.record, who, now: evening });
  expect(meant).toMatchObject({ form: { title: "sheet" } });
});

test("whatever was answered so far, the next page is within the limits", () => {
  const names = fc.array(fc.string({ unit: "binary", minLength: 1, maxLength: 60 }), {
    minLength: 1,
    maxLength: 12,
  });
  const law = fc.property(names, fc.nat(60), fc.string({ maxLength: 900 }), (baths, done, text) => {
    const draft: Draft = {
      by: who,
      answers: {
        ...gardenAnswers,
        name: baths[0] ?? "",
        baths: baths.map((name) => ({ name, kind: "developer" })),
        bath: {},
      },
    };
    const typed = Object.fromEntries(questionsOf(draft.answers).map(({ id }) => [id, text]));
    const page = teachForm(draft, benchKey, done % 2 === 0 ? typed : {});
    expect(modal.safeParse(page).error).toBeUndefined();
  });
  fc.assert(law, { numRuns: 30, endOnFailure: true });
});
