import { basename, dirname } from "node:path";
import type { FileSystem, OpenFile } from "../../src/platform/file-system.ts";

/** A file as the system shows it and as it would be found after a power cut. */
type Inode = {
  current: Uint8Array;
  synced: Uint8Array;
  /** Ranges whose sync failed: the system believes them written and never tries again. */
  holes: { from: number; to: number }[];
};

type Node = { readonly kind: "folder" } | { readonly kind: "file"; readonly inode: Inode };

/** A change of names in one folder that a power cut may still undo. */
type Renaming = { readonly folder: string; perform(names: Map<string, Node>): void };

export type Operation = {
  readonly name:
    | "create"
    | "append"
    | "write"
    | "sync"
    | "truncate"
    | "close"
    | "make-directory"
    | "rename"
    | "remove"
    | "sync-directory"
    | "read"
    | "list";
  readonly path: string;
};

/** Answers what goes wrong with an operation: an error code, after some bytes if it is a write. */
export type Fault = (operation: Operation) => { code: string; taken?: number } | undefined;

const failure = (code: string): Error =>
  Object.assign(new Error(`${code}, as the test wants`), { code });

/**
 * A disk in memory that knows what a real one may lose: content that was not synced, and names in
 * folders that were not synced, each on its own. `fault` is asked before every operation.
 */
export class MemoryDisk implements FileSystem {
  fault: Fault = () => undefined;
  #names = new Map<string, Node>([["/", { kind: "folder" }]]);
  #safe = new Map<string, Node>([["/", { kind: "folder" }]]);
  #pending: Renaming[] = [];

  /** The disk after a power cut; `chance` gives numbers from 0 up to 1 and decides what is lost. */
  afterPowerCut(chance: () => number): MemoryDisk {
    const names = new Map(this.#safe);
    for (const renaming of this.#pending) if (chance() < 0.5) renaming.perform(names);
    const disk = new MemoryDisk();
    for (const path of [...names.keys()].sort()) {
      const node = names.get(path);
      if (node === undefined || (path !== "/" && !disk.#names.has(dirname(path)))) continue;
      disk.#set(path, node.kind === "file" ? fileOf(survivor(node.inode, chance)) : node);
    }
    return disk;
  }

  /** The disk as a process killed in the middle leaves it: all that was written is there. */
  afterKill(): MemoryDisk {
    const disk = new MemoryDisk();
    for (const [path, node] of this.#names) {
      disk.#set(path, node.kind === "file" ? fileOf(node.inode.current) : node);
    }
    return disk;
  }

  /** Puts a file there, safe, making its folders: how a test damages what is stored. */
  put(path: string, content: string | Uint8Array): void {
    const above = dirname(path);
    if (!this.#names.has(above)) {
      this.put(`${above}/.`, "");
      this.#set(above, { kind: "folder" });
    }
    if (basename(path) !== ".") this.#set(path, fileOf(Buffer.from(content)));
  }

  text(path: string): string | undefined {
    const node = this.#names.get(path);
    return node?.kind === "file" ? Buffer.from(node.inode.current).toString() : undefined;
  }

  paths(): string[] {
    return [...this.#names]
      .filter(([, { kind }]) => kind === "file")
      .map(([path]) => path)
      .sort();
  }

  drop(path: string): void {
    this.#names.delete(path);
    this.#safe.delete(path);
  }

  async read(path: string): Promise<Uint8Array | undefined> {
    this.#ask("read", path);
    const node = this.#names.get(path);
    return node?.kind === "file" ? node.inode.current : undefined;
  }

  async list(path: string): Promise<readonly string[]> {
    this.#ask("list", path);
    const below = [...this.#names.keys()].filter((name) => name !== "/" && dirname(name) === path);
    return below.map((name) => basename(name));
  }

  async create(path: string): Promise<OpenFile> {
    this.#ask("create", path);
    if (!this.#names.has(dirname(path))) throw failure("ENOENT");
    const node = fileOf(new Uint8Array());
    node.inode.synced = new Uint8Array();
    this.#rename(dirname(path), (names) => names.set(path, node));
    return this.#open(path, node.inode);
  }

  async append(path: string): Promise<OpenFile> {
    this.#ask("append", path);
    const node = this.#names.get(path);
    if (node?.kind !== "file") throw failure("ENOENT");
    return this.#open(path, node.inode);
  }

  async makeDirectory(path: string): Promise<boolean> {
    this.#ask("make-directory", path);
    if (this.#names.has(path)) return false;
    if (!this.#names.has(dirname(path))) throw failure("ENOENT");
    this.#rename(dirname(path), (names) => names.set(path, { kind: "folder" }));
    return true;
  }

  async rename(from: string, to: string): Promise<void> {
    this.#ask("rename", to);
    const node = this.#names.get(from);
    if (node === undefined) throw failure("ENOENT");
    this.#rename(dirname(to), (names) => {
      names.delete(from);
      names.set(to, node);
      // What lies in a folder goes with it.
      for (const [path, inner] of [...names]) {
        if (!path.startsWith(`${from}/`)) continue;
        names.delete(path);
        names.set(to + path.slice(from.length), inner);
      }
    });
  }

  async removeTree(path: string): Promise<void> {
    this.#ask("remove", path);
    this.#rename(dirname(path), (names) => {
      for (const name of [...names.keys()]) {
        if (name === path || name.startsWith(`${path}/`)) names.delete(name);
      }
    });
  }

  async remove(path: string): Promise<void> {
    this.#ask("remove", path);
    this.#rename(dirname(path), (names) => names.delete(path));
  }

  async syncDirectory(path: string): Promise<void> {
    this.#ask("sync-directory", path);
    for (const { folder, perform } of this.#pending) if (folder === path) perform(this.#safe);
    this.#pending = this.#pending.filter(({ folder }) => folder !== path);
  }

  #open(path: string, inode: Inode): OpenFile {
    return {
      write: async (bytes) => {
        const fault = this.fault({ name: "write", path });
        const taken = fault?.taken ?? (fault === undefined ? bytes.length : 0);
        inode.current = Buffer.concat([inode.current, bytes.subarray(0, taken)]);
        if (fault !== undefined && taken === 0) throw failure(fault.code);
        return Math.min(taken, bytes.length);
      },
      sync: async () => {
        const fault = this.fault({ name: "sync", path });
        if (fault !== undefined) {
          inode.holes.push({ from: inode.synced.length, to: inode.current.length });
          throw failure(fault.code);
        }
        inode.synced = Uint8Array.from(inode.current);
        for (const { from, to } of inode.holes) inode.synced.fill(0, from, to);
      },
      truncate: async (length) => {
        this.#ask("truncate", path);
        inode.current = inode.current.slice(0, length);
        inode.holes = inode.holes.filter(({ from }) => from < length);
      },
      close: async () => this.#ask("close", path),
    };
  }

  #ask(name: Operation["name"], path: string): void {
    const fault = this.fault({ name, path });
    if (fault !== undefined) throw failure(fault.code);
  }

  #rename(folder: string, perform: (names: Map<string, Node>) => void): void {
    perform(this.#names);
    this.#pending.push({ folder, perform });
  }

  #set(path: string, node: Node): void {
    this.#names.set(path, node);
    this.#safe.set(path, node);
  }
}

const fileOf = (content: Uint8Array): { kind: "file"; inode: Inode } => ({
  kind: "file",
  inode: { current: content, synced: content, holes: [] },
});

/** What was synced is there; of the rest all, nothing, a part or zeros in its place. */
function survivor({ current, synced, holes }: Inode, chance: () => number): Uint8Array {
  let same = 0;
  while (same < synced.length && synced[same] === current[same]) same += 1;
  if (same < synced.length || current.length === same) return synced;
  const written = Uint8Array.from(current);
  for (const { from, to } of holes) written.fill(0, from, to);
  const kind = Math.floor(chance() * 4);
  const some = same + Math.floor(chance() * (current.length - same));
  if (kind === 0) return synced;
  if (kind === 1) return written;
  if (kind === 2) return written.slice(0, some);
  return written.fill(0, same, some);
}
