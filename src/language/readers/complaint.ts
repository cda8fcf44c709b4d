import { faultQuestions, symptoms } from "../../data/faults.ts";
import type { Seen } from "../../domain/faults/diagnosis.ts";
import type { Reading } from "../reader.ts";
import { toWords } from "../words.ts";

type Meaning =
  | { readonly kind: "symptom"; readonly id: string; readonly alone: boolean }
  | { readonly kind: "answer"; readonly question: string; readonly word: string }
  | { readonly kind: "film" }
  | { readonly kind: "process"; readonly process: string }
  | { readonly kind: "small" };

/** Questions people answer unasked; the words of the others mean something else outside of them. */
const VOLUNTEERED: ReadonlySet<string> = new Set(["numbers", "extent", "place", "over", "wipes"]);

type Entry = { readonly words: readonly string[]; readonly meaning: Meaning };

/** Words for the film itself, and for what lies on it. Common usage, no source. */
const FILM =
  "everything came out,everything looks,everything is too,came out,come out,scan,scans,film,films,negative,negatives,neg,negs,roll,rolls,frame,frames,strip,strips,picture,pictures,image,images,photo,photos,shot,shots,base,emulsion,slides,colours,film base,clear parts,clear areas,highlights,shadows";

const SILVER = "black and white,black-and-white,b&w,bw,monochrome";
const COLOUR = "c-41,c41,colour negative,colour film,colour negatives";

/** Words that say nothing about what is wrong. Common usage, no source. */
const SMALL =
  "everything,awfully,terribly,horribly,extremely,incredibly,pretty,fairly,way,much,bit,with a,super,first,some of,many,most,parts of,to scan,to print,back,surface,shiny side,mean,means,be saved,be rescued,be fixed,come from,comes from,like,just like,the,a,an,my,our,some,this,that,these,those,is,are,was,were,am,be,been,it,they,them,its,there,here,has,have,had,having,got,get,gets,getting,with,of,on,in,at,all,whole,every,each,both,very,quite,rather,really,a bit,a little,too,so,far,much,completely,totally,entirely,slightly,somehow,look,looks,looking,looked,seem,seems,came,come,out,turned,turn,became,become,ended,up,i,we,see,can see,found,find,notice,noticed,shows,show,showing,and,but,also,just,now,again,today,tonight,this time,last,last run,last roll,from,tank,after,drying,dry,after drying,when dry,after the fix,after fixing,for some reason,new,developed,me,help,please,everywhere on,over it,over them,on it,on them,small,tiny,little,big,large,strange,funny,odd looking,weird,lot of,lots of,full of,few,colour,appeared,something like,kind of,sort of,what looks like,as if,to be,across,along,down,running,one,two,three,do,does,not,why";

/** By first word, the longest phrase in front. */
const entries: ReadonlyMap<string, readonly Entry[]> = (() => {
  const known = new Map<string, Entry[]>();
  const learn = (ways: readonly string[], meaning: Meaning): void => {
    for (const way of ways) {
      const { words } = toWords(way);
      const first = words[0] ?? "";
      known.set(first, [...(known.get(first) ?? []), { words, meaning }]);
    }
  };
  for (const { id, ways, nouns } of symptoms) {
    learn(nouns, { kind: "symptom", id, alone: true });
    learn(ways, { kind: "symptom", id, alone: false });
  }
  for (const { id, options } of faultQuestions.filter((one) => VOLUNTEERED.has(one.id))) {
    for (const { word, ways } of options) {
      // One word alone may mean anything outside its question.
      const told = ways.filter((way) => way.includes(" "));
      learn(told, { kind: "answer", question: id, word });
    }
  }
  learn(FILM.split(","), { kind: "film" });
  learn(SILVER.split(","), { kind: "process", process: "black-and-white" });
  learn(COLOUR.split(","), { kind: "process", process: "C-41" });
  learn(SMALL.split(","), { kind: "small" });
  for (const list of known.values()) list.sort((a, b) => b.words.length - a.words.length);
  return known;
})();

const LONGEST = 40;

type Told = Seen & { readonly film: boolean; readonly alone: boolean };

/** Reads everything that is left as a description of a fault; one unknown word and it is none. */
function describe(all: readonly string[], from: number): Told | undefined {
  if (all.length - from > LONGEST) return undefined;
  const words = all.slice(from).flatMap((word) => word.split(/[/+]/).filter((part) => part !== ""));
  const found: string[] = [];
  const given: Record<string, string> = {};
  let process: string | undefined;
  let [film, alone] = [false, false];
  for (let at = 0; at < words.length; ) {
    const entry = (entries.get(words[at] ?? "") ?? []).find((one) =>
      one.words.every((word, index) => words[at + index] === word),
    );
    if (entry === undefined) return undefined;
    const { meaning } = entry;
    if (meaning.kind === "symptom") {
      if (!found.includes(meaning.id)) found.push(meaning.id);
      alone ||= meaning.alone;
    } else if (meaning.kind === "answer") {
      given[meaning.question] = meaning.word;
      // Only film has numbers on its edge, and only rolls come several to a tank.
      film ||= meaning.question === "numbers" || meaning.question === "extent";
    } else if (meaning.kind === "process") {
      ({ process } = meaning);
      film = true;
    } else if (meaning.kind === "film") film = true;
    at += entry.words.length;
  }
  if (found.length === 0) return undefined;
  const told = { symptoms: found.slice(0, 3), given, film, alone };
  return process === undefined ? told : { ...told, process };
}

const asSeen = ({ film: _, alone: __, ...seen }: Told): Seen => seen;

/**
 * The slot `{complaint}`: the whole rest of a sentence as what is wrong with film: "the negatives
 * are thin with faint edge numbers". It speaks of film, or names a fault that only film has.
 */
export function readComplaint(words: readonly string[], from: number): readonly Reading<Seen>[] {
  const told = describe(words, from);
  if (told === undefined || !(told.film || told.alone)) return [];
  return [{ value: asSeen(told), next: words.length }];
}

/** The slot `{symptom}`: the same where film was spoken of already: "thin", "cloudy". */
export function readSymptom(words: readonly string[], from: number): readonly Reading<Seen>[] {
  const told = describe(words, from);
  return told === undefined ? [] : [{ value: asSeen(told), next: words.length }];
}
