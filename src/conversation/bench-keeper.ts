import { dailyLooks } from "../commands/daily-looks.ts";
import type { Command } from "../commands/define-command.ts";
import type { Work } from "../commands/work.ts";
import { workFailed } from "../commands/work-words.ts";
import { apply } from "../domain/changes.ts";
import { ownValue } from "../domain/own-value.ts";
import { withBeatsTold } from "../domain/record/beats-told.ts";
import { planLooks } from "../domain/record/plan-looks.ts";
import { planDaily } from "../domain/reminders/daily-message.ts";
import { moveZone } from "../domain/reminders/move-zone.ts";
import { archiveOldRuns } from "../domain/session/archive.ts";
import type { Bench } from "../domain/session/bench.ts";
import { nextCue, nextDue } from "../domain/session/decide.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { ExportError } from "../export/export-error.ts";
import { type Files, noFiles, PICTURES } from "../export/files.ts";
import type { Moment, Reply } from "../reply/reply.ts";
import type { Store } from "../store/store.ts";
import { StoreError } from "../store/store-error.ts";
import { announce } from "./announce.ts";
import { announceReminders } from "./announce-reminders.ts";
import { decideCues } from "./decide-cues.ts";
import { firstAid } from "./first-aid.ts";
import { LetGo, type LookBack } from "./look-back/look-back.ts";
import { momentOf } from "./moment.ts";
import { notKept } from "./not-kept.ts";
import { PastRuns } from "./past-runs.ts";
import { type BenchRecord, newRecord, withThread } from "./record.ts";
import { settleByClock } from "./settle-runs.ts";
import { type ExportsKnown, type Message, type Turn, turn } from "./turn.ts";
import { undoAfter } from "./undo-after.ts";
import { turnWithoutBench } from "./without-bench.ts";

/**
 * Tells people something: returns once it is out of the program's hands. `bench` is the bench as it
 * is after what is told.
 */
export type Tell = (replies: readonly Reply[], bench: Bench) => void | Promise<void>;

/** Where a bench stands. `moved`: a bench that is already there takes this zone as well. */
export type Place = { readonly zone: string; readonly moved?: boolean | undefined };

/** So many runs in files are read here, in less time than it takes to ask another thread. */
const FEW = 250;
/** A bench that others go on changing waits for an answer that looks back, after so many. */
const ATTEMPTS = 3;

/**
 * One bench in memory, in step with its store. What a message changes is durable before its reply
 * is given; a cue is told first and marked as told after, so that a crash between the two repeats
 * it, late, rather than losing it. What only asks is answered also where the disk takes nothing.
 */
export class BenchKeeper {
  readonly #id: string;
  readonly #store: Store<BenchRecord>;
  readonly #commands: readonly Command[];
  #record: BenchRecord;
  /**
   * What the store holds: behind `#record` by what the clock did and what was talked while the disk
   * took nothing.
   */
  #stored: BenchRecord;
  readonly #past: PastRuns;
  readonly #files: Files;
  readonly #far: LookBack | undefined;
  /** An archive is being made or taken. */
  #working = false;
  /** A turn failed by what stands in the record, and none has gone well since. */
  #stumbles = false;
  /** Turns and ticks are taken one after the other. */
  #queue: Promise<unknown> = Promise.resolve();

  private constructor(
    id: string,
    store: Store<BenchRecord>,
    commands: readonly Command[],
    record: BenchRecord,
    files: Files,
    lookBack: LookBack | undefined,
  ) {
    this.#files = files;
    this.#far = lookBack;
    this.#id = id;
    this.#store = store;
    this.#commands = commands;
    this.#record = record;
    this.#stored = record;
    this.#past = new PastRuns(store, id);
  }

  /** Opens a bench, or makes it at `place`. `notices` are sentences about its files. */
  static async open(
    id: string,
    { zone, moved = false }: Place,
    store: Store<BenchRecord>,
    commands: readonly Command[],
    files: Files = noFiles,
    lookBack?: LookBack,
  ): Promise<{ keeper: BenchKeeper; notices: readonly string[] }> {
    const { value, notices: found } = await store.load(id);
    const notices = [...found, ...(await pictureNotices(id, store, files))];
    const record =
      value === undefined
        ? newRecord(id, zone)
        : moved && value.bench.zone !== zone
          ? { ...value, bench: moveZone(value.bench, zone) }
          : value;
    if (record !== value) await store.commit(id, value, record);
    return { keeper: new BenchKeeper(id, store, commands, record, files, lookBack), notices };
  }

  get record(): BenchRecord {
    return this.#record;
  }

  /** When the clock next has something to say here. */
  nextDue(): Instant | undefined {
    return nextDue(this.#record.bench);
  }

  /** When a run is next moved on by the clock. */
  nextCue(): Instant | undefined {
    return nextCue(this.#record.bench);
  }

  /**
   * First aid, where a message calls for it: before anything else, whatever the bench, its store
   * and those who wait for it are like. That it was given is noted after it, for `again`.
   */
  firstAid(message: Message, now: Instant): Reply | undefined {
    const aid = firstAid(message, now, this.#commands);
    if (aid === undefined) return undefined;
    const { who } = message;
    const reply = { ...aid, clock: clockOf(this.#record, now) };
    const noting = this.#inTurn(async () => {
      const thread = ownValue(this.#record.threads, who);
      const last = { reply, at: now };
      await this.#commitTold(
        withThread(this.#record, who, { ...thread, pending: undefined, last }),
        false,
      );
    });
    // It was told; a disk that takes nothing is told of with the next cue or change.
    noting.catch(() => undefined);
    return reply;
  }

  /**
   * A message and its answer; the change is durable when this resolves. What stands in files is
   * read when first asked for, out of turn, so that no cue waits for it.
   *
   * @param progress  hears how far something long has come
   */
  async hear(
    message: Message,
    now: Instant,
    progress: (reply: Reply) => void = () => undefined,
  ): Promise<Reply> {
    const aid = this.firstAid(message, now);
    if (aid !== undefined) return aid;
    const taken = await this.#taken(message, now);
    if (taken.work === undefined) return taken.reply;
    const reply = await this.#perform(taken.work, now, progress);
    return { ...reply, clock: momentOf(this.#record.bench, now) };
  }

  /** A turn; where the bench itself makes it fail, what can be answered without the bench. */
  async #taken(message: Message, now: Instant): Promise<Turn> {
    const apart = this.#stumbles ? await this.#withoutBench(message, now) : undefined;
    if (apart !== undefined) return apart;
    try {
      const taken = await this.#withBench(message, now);
      this.#stumbles = false;
      return taken;
    } catch (error) {
      // A disk that takes nothing says nothing about the record.
      this.#stumbles = !(error instanceof StoreError);
      const left = await this.#withoutBench(message, now);
      if (left === undefined) throw error;
      return left;
    }
  }

  async #withBench(message: Message, now: Instant): Promise<Turn> {
    const taken = await this.#inTurn(() => this.#turn(message, now, "unread"));
    if (taken.lacks === "past-runs") return this.#lookBack(message, now);
    if (taken.lacks !== "exports") return taken;
    const exports = await this.#files.exports();
    return this.#inTurn(() => this.#turn(message, now, exports));
  }

  /** First aid, and the ways out of a bench that fails; undefined for anything else. */
  async #withoutBench(message: Message, now: Instant): Promise<Turn | undefined> {
    const taken = (exports: ExportsKnown): Turn | undefined =>
      turnWithoutBench(this.#record, message, now, this.#commands, exports);
    const first = taken("unread");
    const left = first?.lacks === "exports" ? taken(await this.#files.exports()) : first;
    if (left !== undefined && left.record !== this.#record) {
      const { threads } = left.record;
      await this.#inTurn(() => this.#commit({ ...this.#record, threads }, false));
    }
    return left;
  }

  /** A turn that looks at runs in files: of a long past, in the thread that is there for it. */
  async #lookBack(message: Message, now: Instant): Promise<Turn> {
    const archive = this.#store.archivePath?.(this.#id);
    const lookBack = this.#far;
    const isLong = this.#record.bench.pastRuns.length > FEW;
    if (lookBack === undefined || archive === undefined || !isLong) {
      await this.#past.read(this.#record.bench, now);
      return this.#inTurn(() => this.#turn(message, now, "unread"));
    }
    const far = async (record: BenchRecord): Promise<Turn> => {
      const { changes, ...taken } = await lookBack.turn(record, archive, message, now);
      return { ...taken, record: apply(record, changes) };
    };
    // Out of turn, so that no cue waits for it; and again if the bench was changed meanwhile.
    for (let attempt = 1; attempt < ATTEMPTS; attempt += 1) {
      const before = this.#record;
      const taken = await far(before).catch((error: unknown) => {
        if (!(error instanceof LetGo)) throw error;
      });
      const kept = await this.#inTurn(async () =>
        taken !== undefined && this.#record === before ? this.#keep(taken, now) : undefined,
      );
      if (kept !== undefined) return kept;
    }
    return this.#inTurn(async () => this.#keep(await far(this.#record), now));
  }

  /** Does with files what a turn has asked for. */
  async #perform(work: Work, now: Instant, progress: (reply: Reply) => void): Promise<Reply> {
    if (this.#working) return workFailed("I am still at the last one. Say it again in a moment.");
    this.#working = true;
    try {
      // Loaded when first wanted: most evenings do without.
      if (work.kind === "export") {
        const { performExport } = await import("./perform/export.ts");
        return (await performExport(this.#whole(), work.name, now, progress)).reply;
      }
      return await this.#inTurn(async () => {
        const { performRewrite } = await import("./perform/rewrite.ts");
        await this.#commit(this.#record, true);
        const { reply } = await performRewrite(this.#whole(), work, (record) => {
          this.#record = record;
          this.#stored = record;
          this.release();
        });
        return reply;
      });
    } catch (error) {
      if (!(error instanceof ExportError || error instanceof StoreError)) throw error;
      return workFailed(error.message);
    } finally {
      this.#working = false;
    }
  }

  #whole() {
    return { id: this.#id, record: this.#record, store: this.#store, files: this.#files };
  }

  /** Tells what has come due by `now`, then marks it as told. */
  tick(now: Instant, tell: Tell): Promise<void> {
    return this.#inTurn(async () => {
      const due = this.nextDue();
      if (due === undefined || due > now) return;
      const before = this.#record;
      const decided = decideCues(before.bench, now, dailyLooks);
      const { happenings, given = [] } = decided;
      const told = withBeatsTold(decided.bench, happenings);
      // What the clock did to a run cannot be taken back past.
      const moved = happenings.some(({ event }) => event.kind !== "cues");
      const { bench, replies: apart } = moved
        ? settleByClock(told, now)
        : { bench: told, replies: [] };
      const reminded = attempt(() => announceReminders(bench, given, now), []);
      const replies = [...announce(bench, happenings, now), ...apart, ...reminded.value].map(
        (reply) => ({ ...reply, clock: momentOf(bench, now) }),
      );
      await tell(replies, bench);
      const said = replies.at(-1);
      const after = {
        ...before,
        bench,
        undo: moved ? [] : undoAfter(before.undo, given),
        lastCue: said === undefined ? before.lastCue : { reply: said, at: now },
      };
      const next = planned(after, now);
      await this.#commitTold(next.record, moved || given.length > 0);
      await this.#archive();
      const fault = decided.fault ?? reminded.fault ?? next.fault;
      if (fault !== undefined) throw fault.error;
    });
  }

  /**
   * The periodic look: plans the daily message again, since the day or the program may have moved
   * on, and then does what `tick` does.
   */
  async look(now: Instant, tell: Tell): Promise<void> {
    const fault = await this.#inTurn(async () => {
      const next = planned(this.#record, now);
      await this.#commit(next.record, false);
      return next.fault;
    });
    this.#past.letGo(now);
    this.#far?.letGo(this.#id, now);
    await this.tick(now, tell);
    if (fault !== undefined) throw fault.error;
  }

  /** Lets go of what is held of a bench that nobody speaks to here any more. */
  release(): void {
    this.#past.drop();
    this.#far?.drop(this.#id);
  }

  /** Resolves once what was begun is done. */
  async idle(): Promise<void> {
    await this.#queue;
  }

  async #turn(message: Message, now: Instant, exports: ExportsKnown): Promise<Turn> {
    const past = this.#past.known ?? "unread";
    const taken = turn(this.#record, message, now, this.#commands, past, exports);
    return taken.lacks === undefined ? this.#keep(taken, now) : taken;
  }

  async #keep(taken: Turn, now: Instant): Promise<Turn> {
    const before = this.#record;
    const { record, fault } = planned(taken.record, now);
    try {
      await this.#commit(record, taken.record.bench !== before.bench);
    } catch (error) {
      const isTalk = taken.record.bench === before.bench && taken.record.undo === before.undo;
      const line = isTalk && taken.work === undefined ? notKept(error) : undefined;
      if (line === undefined) throw error;
      // The talk alone is ahead of the disk; the next commit that it takes holds it.
      this.#record = taken.record;
      return { ...taken, reply: { ...taken.reply, cautions: [...taken.reply.cautions, line] } };
    }
    await this.#archive();
    if (fault === undefined) return taken;
    const { reply } = taken;
    return { ...taken, reply: { ...reply, cautions: [...reply.cautions, NOT_PLANNED] } };
  }

  async #commit(record: BenchRecord, durable: boolean): Promise<void> {
    if (record !== this.#stored) {
      await this.#store.commit(this.#id, this.#stored, record, { durable });
    }
    this.#stored = record;
    this.#record = record;
  }

  /**
   * What was told is not told again, and the runs go on, also where the disk takes nothing: the
   * next commit that it takes holds all of it. A restart before that tells it once more, as late.
   */
  async #commitTold(record: BenchRecord, durable: boolean): Promise<void> {
    try {
      await this.#commit(record, durable);
    } catch (error) {
      this.#record = record;
      throw error;
    }
  }

  /** Runs that ended long ago go to files of their own before they leave the bench. */
  async #archive(): Promise<void> {
    const { bench, runs } = archiveOldRuns(this.#record.bench);
    if (bench === this.#record.bench) return;
    for (const run of runs) await this.#store.archive(this.#id, run.id, run);
    await this.#commit({ ...this.#record, bench, undo: [] }, true);
    this.#past.archived(runs);
    this.#far?.archived(this.#id, runs);
  }

  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const result = this.#queue.then(work);
    this.#queue = result.catch(() => undefined);
    return result;
  }
}

/** Which kind of moment it is; undefined where the record cannot tell. */
function clockOf({ bench }: BenchRecord, now: Instant): Moment | undefined {
  try {
    return momentOf(bench, now);
  } catch {
    return undefined;
  }
}

/** Pictures of an archive whose restoring was cut short come into their place with the bench. */
async function pictureNotices(
  id: string,
  store: Store<BenchRecord>,
  files: Files,
): Promise<readonly string[]> {
  try {
    const waiting = store.besidePath?.(id, PICTURES);
    if (waiting !== undefined) await files.takePictures(waiting);
    return [];
  } catch (error) {
    if (!(error instanceof Error && "code" in error)) throw error;
    return ["The disk would not put the pictures of this bench into their place."];
  }
}

const NOT_PLANNED =
  "Something of this bench keeps me from planning the daily message. Cues and the rest go on.";

type Fault = { readonly error: unknown };
type Planned = { readonly record: BenchRecord; readonly fault?: Fault | undefined };

/** What a piece of work gives, or `instead` and what went wrong. */
function attempt<T>(work: () => T, instead: T): { readonly value: T; readonly fault?: Fault } {
  try {
    return { value: work() };
  } catch (error) {
    return { value: instead, fault: { error } };
  }
}

/**
 * The record with the next daily message and the first looks planned. Whatever goes wrong in that
 * is no reason to lose an answer, or what was told: the record stays as it was, beside the fault.
 */
function planned(record: BenchRecord, now: Instant): Planned {
  const { value: bench, fault } = attempt(
    () => planDaily(planLooks(record.bench, now), now, dailyLooks),
    record.bench,
  );
  return { record: bench === record.bench ? record : { ...record, bench }, fault };
}
