// One process at a time on a folder: a file that names the process which holds it. The lock of a process that died
// (kill -9, power cut) is taken over; that of a living one is refused with the remedy. Knows no database.
// A process is known by its number and its start, since numbers are given again. Next: pglite.ts.

import { randomUUID } from 'node:crypto';
import { linkSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';

interface Holder {
  readonly pid: number;
  readonly host: string;
  /** The kernel's start time of the process; null where the system does not tell. */
  readonly started: string | null;
  /** Tells two locks of one process apart. */
  readonly id: string;
}

/**
 * Locks the folder for this process and returns the function that unlocks it.
 *
 * Errors   held by a living process, by one on another machine, or by a file that names nobody: refused with the remedy.
 */
export function lockFolder(folder: string): () => void {
  const path = join(folder, 'lock');
  const own: Holder = { pid: process.pid, host: hostname(), started: startOf(process.pid), id: randomUUID() };
  const ownText = JSON.stringify(own);
  const draft = `${path}.${own.id}`;

  writeFileSync(draft, ownText, { flush: true });
  try {
    // A round is lost only to a process that locks or unlocks in the same instant; two such are chance, not five.
    for (let round = 0; round < 5; round++) {
      if (tryLink(draft, path)) return () => unlock(path, ownText);
      const found = readOrNothing(path);
      if (found === undefined) continue;
      refuseUnlessDead(folder, path, found);
      setAside(path, found);
    }
  } finally {
    rmSync(draft, { force: true });
  }
  throw new Error(`Other processes keep locking ${folder}. Stop all but one of them, or give each its own folder.`);
}

/** True when the lock is now ours. A link is made whole or not at all, so nobody ever reads half a lock. */
function tryLink(from: string, to: string): boolean {
  try {
    linkSync(from, to);
    return true;
  } catch (cause) {
    if (codeOf(cause) === 'EEXIST') return false;
    throw cause;
  }
}

/** Takes a dead process's lock away, but puts it back if another process was quicker and the lock is alive. */
function setAside(path: string, dead: string): void {
  const aside = `${path}.${randomUUID()}`;
  try {
    renameSync(path, aside);
  } catch (cause) {
    if (codeOf(cause) === 'ENOENT') return;
    throw cause;
  }
  if (readFileSync(aside, 'utf8') !== dead) tryLink(aside, path);
  rmSync(aside, { force: true });
}

function unlock(path: string, ownText: string): void {
  if (readOrNothing(path) === ownText) rmSync(path, { force: true });
}

function refuseUnlessDead(folder: string, path: string, found: string): void {
  const holder = parseHolder(found);
  if (holder === undefined) {
    throw new Error(`${path} names no process. If nothing uses ${folder}, delete that file and start again.`);
  }
  if (holder.host !== hostname()) {
    throw new Error(
      `${folder} is in use by process ${holder.pid} on the machine ${holder.host}, which cannot be checked from here. ` +
        `Stop it there; if it no longer runs, delete ${path} and start again.`,
    );
  }
  if (isAlive(holder)) {
    throw new Error(
      `${folder} is in use by process ${holder.pid}, and the embedded database serves one process at a time. ` +
        'Stop that process, choose another folder, or set DATABASE_URL to a PostgreSQL server, which serves many.',
    );
  }
}

function isAlive(holder: Holder): boolean {
  try {
    process.kill(holder.pid, 0);
  } catch (cause) {
    // EPERM: it is there, and belongs to another user.
    if (codeOf(cause) !== 'EPERM') return false;
  }
  return startOf(holder.pid) === holder.started;
}

/**
 * The start of a process in clock ticks since boot; null for one that has ended but is still listed (a zombie).
 * Fields 3 (state) and 22 (start) of proc_pid_stat(5); field 2 may hold spaces and brackets, so count from its end.
 */
function startOf(pid: number): string | null {
  const stat = readOrNothing(`/proc/${pid}/stat`);
  const fields = stat?.slice(stat.lastIndexOf(')') + 2).split(' ') ?? [];
  return fields[0] === 'Z' ? null : (fields[19] ?? null);
}

function parseHolder(text: string): Holder | undefined {
  try {
    const value = JSON.parse(text) as Partial<Holder> | null;
    const isWhole =
      Number.isInteger(value?.pid) && Number(value?.pid) > 0 && typeof value?.host === 'string' && value.started !== undefined;
    return isWhole ? (value as Holder) : undefined;
  } catch {
    return undefined;
  }
}

function readOrNothing(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8');
  } catch (cause) {
    if (codeOf(cause) === 'ENOENT' || codeOf(cause) === 'ESRCH') return undefined;
    throw cause;
  }
}

const codeOf = (cause: unknown): string | undefined => (cause as NodeJS.ErrnoException).code;
