import type { Engine, EngineChoice } from "../engine.ts";
import { openProgram } from "./program.ts";
import { openSphinx } from "./sphinx.ts";

export function openEngine(choice: EngineChoice): Engine {
  switch (choice.kind) {
    case "sphinx":
      return openSphinx(choice.model);
    case "program":
      return openProgram(choice.command);
  }
}
