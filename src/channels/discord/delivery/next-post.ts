import type { Post } from "../directory/record.ts";
import { type MessagePayload, MOST_CHARACTERS } from "../words/message-payload.ts";

/** A post that goes out later than this after it was due, ms, says so. */
export const TOLERANCE = 3000;

export type NextPost = {
  /** The posts that this one message stands for, oldest first. */
  readonly posts: readonly Post[];
  readonly nonce: string;
  readonly payload: MessagePayload;
};

const isLate = (post: Post, now: number): boolean =>
  post.rank === "cue" && now - post.due > TOLERANCE;

const clock = (due: number): string => `<t:${Math.floor(due / 1000)}:T>`;

const firstLine = ({ payload }: Post): string => payload.content.split("\n")[0] ?? "";

const MANY = "Late, because I could not reach Discord. These were due:";

/**
 * The message to post next of those that wait for one place, which are given in order. What was
 * due a while ago says so; where several are late, they come as one message. `attempted` holds the
 * nonces under which something may have been taken already: such a post goes again as it was, so
 * that Discord can tell that it is the same.
 */
export function nextPost(
  waiting: readonly Post[],
  now: number,
  attempted: { has(nonce: string): boolean },
): NextPost | undefined {
  const [first] = waiting;
  if (first === undefined) return undefined;
  const posts = together(first, waiting, now, attempted);
  const payload = posts.length > 1 ? merged(posts) : single(first, now);
  return { posts, nonce: first.nonce, payload };
}

function together(
  first: Post,
  waiting: readonly Post[],
  now: number,
  attempted: { has(nonce: string): boolean },
): readonly Post[] {
  if (first.batch !== undefined) return waiting.filter(({ batch }) => batch === first.batch);
  if (attempted.has(first.nonce) || !isLate(first, now)) return [first];
  const posts: Post[] = [];
  let length = MANY.length;
  for (const post of waiting) {
    if (!isLate(post, now) || post.batch !== undefined || attempted.has(post.nonce)) break;
    length += `\n${clock(post.due)} ${firstLine(post)}`.length;
    if (length > MOST_CHARACTERS) break;
    posts.push(post);
  }
  return posts.length === 0 ? [first] : posts;
}

function single(post: Post, now: number): MessagePayload {
  if (!isLate(post, now)) return post.payload;
  const content = `Late, it was due ${clock(post.due)}: ${post.payload.content}`;
  return { ...post.payload, content: cut(content) };
}

function merged(posts: readonly Post[]): MessagePayload {
  const lines = posts.map((post) => `${clock(post.due)} ${firstLine(post)}`);
  const users = [...new Set(posts.flatMap(({ payload }) => payload.allowed_mentions.users ?? []))];
  const last = posts[posts.length - 1];
  return {
    content: cut([MANY, ...lines].join("\n")),
    components: last?.payload.components ?? [],
    allowed_mentions: users.length === 0 ? { parse: [] } : { parse: [], users },
    flags: last?.payload.flags ?? 0,
  };
}

const cut = (text: string): string =>
  text.length <= MOST_CHARACTERS ? text : `${text.slice(0, MOST_CHARACTERS - 3)}...`;
