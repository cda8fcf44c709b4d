import { phrases } from "./phrases.ts";

/** The slot `{yes}`: an answer to a yes-or-no question. Common usage, no source. */
export const readYes = phrases<boolean>([
  [true, "yes, y, yep, yeah, yup, ya, aye, ok, k, right, correct, exactly, sure, fine, indeed"],
  [true, "do it, go ahead, go on, yes please, please do, that is right, that is correct, it is"],
  [true, "sounds good, looks good, all right, alright, of course, confirm, confirmed, i am sure"],
  [false, "no, n, nope, nah, cancel, never mind, nevermind, forget it, leave it, do not, abort"],
  [
    false,
    "no thanks, no thank you, not now, wrong, incorrect, it is not, that is wrong, not right",
  ],
]);
