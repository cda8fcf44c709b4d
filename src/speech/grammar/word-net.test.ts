import { expect, test } from "vitest";
import { parseTemplate } from "../../language/template.ts";
import { NetBuilder } from "./net-builder.ts";
import { compact, type PlainNet } from "./word-net.ts";

function netOf(...templates: readonly string[]): PlainNet {
  const builder = new NetBuilder();
  for (const text of templates) {
    builder.end(
      builder.lay(parseTemplate(text).node, 0, (_, from) => from),
      1,
    );
  }
  return compact(builder.net());
}

function accepts({ next, ends }: PlainNet, sentence: string): boolean {
  let state: number | undefined = 0;
  for (const word of sentence.split(" ").filter(Boolean)) {
    state = next[state]?.get(word);
    if (state === undefined) return false;
  }
  return ends.has(state);
}

test.each([
  ["[the] water [is|went] in", ["water in", "the water is in", "water went in"]],
  ["(how much|what) [hot] water", ["how much water", "what hot water"]],
  ["start <tank north / two rolls>", ["start", "start tank north", "start two rolls tank north"]],
])("%s is laid as it is written", (template, sentences) => {
  const net = netOf(template);
  for (const sentence of sentences) expect(accepts(net, sentence), sentence).toBe(true);
  for (const sentence of ["", "water", "start tank", "what the water"]) {
    expect(accepts(net, sentence), sentence).toBe(false);
  }
});

test("sentences that go on alike share what they share", () => {
  const net = netOf("(red|white|blue) tank is (in|out)", "(red|white) tank is full");
  // Start, behind a colour of either kind, behind tank, behind is, the end: seven states.
  expect(net.next.length).toBeLessThanOrEqual(8);
  expect(accepts(net, "blue tank is full")).toBe(false);
  expect(accepts(net, "white tank is full")).toBe(true);
});

test("how usual a sentence is is kept apart where it differs", () => {
  const builder = new NetBuilder();
  for (const [word, usual] of [
    ["full", 1],
    ["fill", 0.1],
  ] as const) {
    const to = builder.state();
    builder.arc(0, to, word);
    builder.end(to, usual);
  }
  const net = compact(builder.net());
  const at = (word: string): number | undefined => net.ends.get(net.next[0]?.get(word) ?? -1);
  expect([at("full"), at("fill")]).toEqual([1, 0.1]);
});
