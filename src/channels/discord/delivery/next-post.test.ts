import { expect, test } from "vitest";
import type { Post } from "../directory/record.ts";
import { payload } from "../words/message-payload.ts";
import { nextPost } from "./next-post.ts";

const DUE = Date.UTC(2026, 10, 28, 19, 33, 5);
const stamp = (ms: number) => `<t:${ms / 1000}:T>`;
const post = (nonce: string, seconds: number, parts: Partial<Post> = {}): Post => ({
  nonce,
  rank: "cue",
  to: { channel: "111111111111111111" },
  payload: payload(`cue ${nonce}\nmore`, { mention: "222222222222222222" }),
  due: DUE + seconds * 1000,
  ...parts,
});
const none = new Set<string>();

test("nothing waits, nothing goes", () => {
  expect(nextPost([], DUE, none)).toBeUndefined();
});

test("on time a post goes as it is, one by one", () => {
  const first = post("a", 0);
  const next = nextPost([first, post("b", 0)], DUE + 2999, none);
  expect(next).toEqual({ posts: [first], nonce: "a", payload: first.payload });
});

test("late by more than the tolerance it says when it was due", () => {
  const { payload: late } = nextPost([post("a", 0)], DUE + 4000, none) ?? {};
  expect(late?.content).toBe(`Late, it was due ${stamp(DUE)}: cue a\nmore`);
  expect(late?.allowed_mentions).toEqual({ parse: [], users: ["222222222222222222"] });
});

test("several late ones are one message in order, and what is on time stays apart", () => {
  const waiting = [post("a", 0), post("b", 10), post("c", 20)];
  const next = nextPost(waiting, DUE + 21_000, none);
  expect(next?.posts.map(({ nonce }) => nonce)).toEqual(["a", "b"]);
  expect(next?.nonce).toBe("a");
  expect(next?.payload.content.split("\n")).toEqual([
    "Late, because I could not reach Discord. These were due:",
    `${stamp(DUE)} cue a`,
    `${stamp(DUE + 10_000)} cue b`,
  ]);
});

test("what may have been taken already goes again alone, under its own nonce", () => {
  const next = nextPost([post("a", 0), post("b", 1)], DUE + 60_000, new Set(["a"]));
  expect(next?.posts).toHaveLength(1);
  expect(next?.nonce).toBe("a");
});

test("posts that went together go together again, and no later one with them", () => {
  const waiting = [post("a", 0, { batch: "a" }), post("b", 1, { batch: "a" }), post("c", 2)];
  const next = nextPost(waiting, DUE + 60_000, new Set(["a"]));
  expect(next?.posts.map(({ nonce }) => nonce)).toEqual(["a", "b"]);
});

test("a message never grows beyond 2,000 characters; the rest follows in the next", () => {
  const many = Array.from({ length: 200 }, (_, at) => post(`n${at}`, 0));
  const next = nextPost(many, DUE + 60_000, none);
  expect(next?.payload.content.length).toBeLessThanOrEqual(2000);
  expect(next?.posts.length).toBeGreaterThan(20);
  const long = post("l", 0, { payload: payload("x".repeat(2000)) });
  expect(nextPost([long], DUE + 60_000, none)?.payload.content).toHaveLength(2000);
});

test("a reminder does not say that Discord was late: its words tell its time", () => {
  const reminder = post("r", 0, { rank: "other" });
  expect(nextPost([reminder], DUE + 60_000, none)?.payload).toBe(reminder.payload);
});
