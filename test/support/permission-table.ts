import { ADMINISTER, MINE, ownDefinitions } from "../../src/channels/discord/set-up/definition.ts";
import {
  type Guarded,
  mayUse,
  permissionsOf,
  type Right,
  rights,
  standings,
} from "../../src/commands/permissions.ts";

/** Words of the Discord channel itself, as they are typed: "/wetside member add". */
export const ownWords = (command: typeof ADMINISTER | typeof MINE): readonly string[] =>
  ownDefinitions
    .filter(({ name }) => name === command)
    .flatMap(({ name, options = [] }) =>
      options.flatMap((option) =>
        "options" in option && option.type === 2
          ? (option.options ?? []).map((inner) => `/${name} ${option.name} ${inner.name}`)
          : [`/${name} ${option.name}`],
      ),
    );

const said = (may: boolean): string => (may ? "yes" : "no");
const listed = (words: readonly string[]): string => words.map((word) => `\`${word}\``).join(", ");

function benchRow(right: Right, commands: readonly Guarded[]): readonly string[] {
  const words = permissionsOf(commands).filter((one) => one.right === right);
  const [owner, member, guest] = standings.map((standing) => said(mayUse(standing, right)));
  const names = words.map(({ word }) => word).toSorted();
  return [listed(names), owner, owner, member, guest].map(String);
}

const HEAD = [
  "words",
  "console",
  "Discord: a member who may manage the server",
  "Discord: a member, listed or by role",
  "Discord: anyone else",
];

/** Who may do what, as a table in Markdown: the one in SECURITY.md. */
export function permissionTable(commands: readonly Guarded[]): string {
  const rows = [
    ...rights.map((right) => benchRow(right, commands)),
    [listed(ownWords(ADMINISTER)), "-", "yes, also before being a member", "no", "no"],
    [listed(ownWords(MINE)), "-", "yes", "yes", "no"],
  ];
  const line = (cells: readonly string[]): string => `| ${cells.join(" | ")} |`;
  return [line(HEAD), line(HEAD.map(() => "---")), ...rows.map(line)].join("\n");
}
