import { phrases } from "./phrases.ts";

export type Form = "text" | "markdown" | "json" | "picture";

/** The slot `{form}`: how a record is wanted. */
export const readForm = phrases<Form>([
  ["markdown", "markdown, md, mark down"],
  ["json", "json, data"],
  ["picture", "picture, a picture, image, an image, png, poster, drawing"],
  ["text", "text, words, plain text"],
]);
