import { loadCommands } from "../../../src/commands/registry.ts";
import { listen, openTestEngine } from "../../speech/listen.ts";
import { meaningOf } from "../../speech/meaning.ts";
import { phrases } from "../../speech/phrases.ts";
import { talk } from "../../speech/talk.ts";
import { openSpeaker } from "../../speech/voices.ts";
const commands = await loadCommands(); const speak = openSpeaker(); const engine = await openTestEngine(commands);
const changing = new Map(commands.map(({ name, changes }) => [name, changes]));
const step = Number(process.argv[2] ?? 4);
for (const v of ["rms","slt"] as const) {
const asks = phrases.filter((p,i)=>changing.get(p.command)!==true || i%3===0).filter((_,i)=>i%step===1);
const clips = speak(asks.map(p=>p.said), v, 1);
(await listen(engine, clips, {})).forEach((e,i)=>console.log("ask", v, changing.get(asks[i]!.command)?"chg":"ask", e.map(h=>`${h.score.toFixed(1)} ${meaningOf(h.text,commands)===meaningOf(clips[i]!.said,commands)?"ok":"BAD"} ${h.text}`).join(" | ")||"none", "<-", clips[i]!.said));
const tc = speak(talk.filter((_,i)=>i%step===2), v, 1);
(await listen(engine, tc, {})).forEach((e,i)=>console.log("talk", v, e.map(h=>`${h.score.toFixed(1)} ${h.text}`).join(" | ")||"none", "<-", tc[i]!.said));
}
engine.close();
