import { expect, test } from "vitest";
import { withFolder } from "../support/child.ts";
import { type Ended, runProgram } from "../support/program.ts";
import { type Scene, TOKEN, withScene } from "./support/bot.ts";
import { BENCH, foundClub, openBenchAt } from "./support/club.ts";

const withRealTime = (play: (scene: Scene) => Promise<void>): Promise<void> =>
  withScene(play, { real: true });

const doctor = ({ standIn, data }: Scene): Promise<Ended> =>
  runProgram([], [], "doctor", {
    DISCORD_TOKEN: TOKEN,
    DISCORD_API: standIn.apiUrl,
    WETSIDE_DATA: data,
  });

test("where all is well it says so and ends with 0", () =>
  withRealTime(async (scene) => {
    const club = await openBenchAt(scene, { messageContent: true });
    await club.bot.stop();
    const { code, output } = await doctor(scene);
    expect(output).toContain("Nothing to mend.");
    expect(output).toMatch(/good +token +accepted; the bot is called/);
    expect(output).toMatch(/good +intents +message content is on/);
    expect(output).toMatch(/good +clock/);
    expect(output).toMatch(/good +data folder .*1 bench is open/);
    expect(output).toMatch(/good +#wet-bench +private/);
    expect(output).not.toContain(TOKEN);
    expect(code).toBe(0);
    expect(scene.standIn.violations).toEqual([]);
  }));

test("what is wrong is named with what to do, and the code is 1", () =>
  withRealTime(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    await club.bot.stop();
    standIn.denyPermission(BENCH, ["SendMessages"]);
    standIn.allowPermission(BENCH, ["ViewChannel"], "@everyone");
    const { code, output } = await doctor(scene);
    expect(code).toBe(1);
    expect(output).toMatch(/MEND +#wet-bench +Everyone in the server can see it/);
    expect(output).toMatch(/MEND +#wet-bench +Allow me Send Messages there/);
    expect(output).toMatch(/note +intents +message content is off/);
    expect(output).toContain("2 things to mend");
  }));

test("while the program runs its benches are left alone", () =>
  withRealTime(async (scene) => {
    await openBenchAt(scene);
    const { code, output } = await doctor(scene);
    expect(output).toMatch(/note +data folder +A Wetside is running/);
    expect(code).toBe(0);
  }));

test("a bot in no server is told how to be invited; one without a good token how to get one", () =>
  withRealTime(async (scene) => {
    scene.standIn.application({ token: TOKEN });
    const alone = await doctor(scene);
    expect(alone.code).toBe(1);
    expect(alone.output).toMatch(
      /MEND +servers .*client_id=\d+&scope=bot\+applications\.commands&permissions=\d+/,
    );
    scene.standIn.revokeToken();
    const refused = await doctor(scene);
    expect(refused.code).toBe(1);
    expect(refused.output).toContain("does not accept DISCORD_TOKEN");
    expect(refused.output).not.toContain(TOKEN);
  }));

test("nobody to talk to, and no token at all", async () => {
  await withRealTime(async (scene) => {
    foundClub(scene);
    await scene.standIn.socket.down();
    const { code, output } = await doctor(scene);
    expect(code).toBe(1);
    expect(output).toContain("Discord cannot be reached (ECONNREFUSED)");
  });
  await withFolder(async (data) => {
    const { code, output } = await runProgram([], [], "doctor", {
      DISCORD_TOKEN: "",
      WETSIDE_DATA: data,
    });
    expect(code).toBe(1);
    expect(output).toContain("DISCORD_TOKEN is not set");
  });
});
