import { existsSync } from "node:fs";
import { findPackageJSON } from "node:module";
import { join } from "node:path";
import type { Command } from "../../commands/define-command.ts";
import type { Settings } from "../../settings.ts";
import { DEBIAN_MODEL } from "../../speech/debian-model.ts";
import type { EngineChoice } from "../../speech/engine.ts";
import type { Attend } from "../discord/voice/ports.ts";

/** Which recogniser the settings choose: a program of the user's, or the one in process. */
export function engineOf({ engine, model }: Settings["voice"]): EngineChoice {
  const own = engine?.trim().split(/\s+/) ?? [];
  return own.length > 0
    ? { kind: "program", command: own }
    : { kind: "sphinx", model: model ?? DEBIAN_MODEL };
}

/**
 * What listens and speaks in calls, loaded with the first one; undefined where this machine has
 * nothing to listen with.
 */
export function attendLazily(
  voice: Settings["voice"],
  commands: readonly Command[],
): Attend | undefined {
  const engine = engineOf(voice);
  const canHear =
    engine.kind === "program" ||
    (existsSync(join(engine.model, "en-us", "mdef")) && hasPackage("koffi"));
  if (!canHear) return undefined;
  return async (call) => {
    const { attendCalls } = await import("./attend-call.ts");
    return attendCalls({ commands, engine })(call);
  };
}

function hasPackage(name: string): boolean {
  try {
    return findPackageJSON(name, import.meta.url) !== undefined;
  } catch {
    return false;
  }
}
