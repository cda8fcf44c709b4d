/** How well possible wake words are heard beside a running tap, and how often talk is taken for one. */
import { loadCommands } from "../../../src/commands/registry.ts";
import { DEBIAN_MODEL } from "../../../src/speech/debian-model.ts";
import { openSphinx } from "../../../src/speech/engines/sphinx.ts";
import { grammarOf } from "../../../src/speech/grammar/bench-grammar.ts";
import { namesOf } from "../../../src/speech/own-names.ts";
import { listen } from "../../speech/listen.ts";
import { talk } from "../../speech/talk.ts";
import { openSpeaker } from "../../speech/voices.ts";
import { busyBench } from "../../support/understand.ts";

const candidates = ["salamander", "amarillo", "periwinkle", "nightingale", "wetside", "outrigger"];
const commands = await loadCommands();
const speak = openSpeaker();
for (const word of candidates) {
  const engine = openSphinx(DEBIAN_MODEL);
  const net = grammarOf(commands, namesOf(busyBench.bench), word);
  await engine.prepare({ net, words: new Set(net.next.flatMap((row) => [...row.keys()])) });
  const texts = ["in", "out", "undo", "start blix"].map((said) => `${word} ${said}`);
  const clips = (["slt", "rms", "awb", "kal16", "ked"] as const).flatMap((voice) =>
    speak(texts, voice, 1),
  );
  const heard = (await listen(engine, clips, { noise: "water", db: 10 })).filter((events) =>
    events.some(({ text }) => text.split(" ")[0] === word),
  );
  const lines = talk.filter((_, at) => at % 10 === 0);
  const taken = (await listen(engine, speak(lines, "rms", 1), {}))
    .flat()
    .filter(({ text, score }) => text.split(" ")[0] === word && score > -25);
  process.stdout.write(
    `${word}: ${heard.length} of ${clips.length} heard, ${taken.length} of ${lines.length} taken for it\n`,
  );
  engine.close();
}
