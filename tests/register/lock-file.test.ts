// Whose lock is taken over, whose is respected. A living and a dead process are our own parent and a child that ended.

import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { lockFolder } from '../../src/register/lock-file.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const made: ReturnType<typeof temporaryFolder>[] = [];
let folder: string;

beforeEach(() => {
  const fresh = temporaryFolder();
  made.push(fresh);
  folder = fresh.path;
});

afterAll(() => {
  for (const one of made) one.remove();
});

const lockNow = () => JSON.parse(readFileSync(join(folder, 'lock'), 'utf8'));
const leaveLock = (changes: object) => {
  const lock = { pid: process.pid, host: hostname(), started: null, id: 'left', ...changes };
  writeFileSync(join(folder, 'lock'), JSON.stringify(lock));
};

describe('a lock on a folder', () => {
  it('is refused a second time in the same process, and free after unlocking', () => {
    const unlock = lockFolder(folder);
    expect(() => lockFolder(folder)).toThrow(`in use by process ${process.pid}`);
    unlock();
    lockFolder(folder)();
    expect(existsSync(join(folder, 'lock'))).toBe(false);
  });

  it('leaves no other file behind', () => {
    leaveLock({ started: 'another start' });
    const unlock = lockFolder(folder);
    expect(readdirSync(folder)).toEqual(['lock']);
    unlock();
    expect(readdirSync(folder)).toEqual([]);
  });

  it('of a process that ended is taken over', () => {
    leaveLock({ pid: spawnSync('true').pid });
    lockFolder(folder);
    expect(lockNow().pid).toBe(process.pid);
  });

  it('of an earlier process with the number of a living one is taken over', () => {
    leaveLock({ pid: process.ppid, started: 'long ago' });
    lockFolder(folder);
    expect(lockNow().pid).toBe(process.pid);
  });

  it('of another machine is respected, and the remedy named', () => {
    leaveLock({ host: 'another-machine' });
    expect(() => lockFolder(folder)).toThrow(/on the machine another-machine.*if it no longer runs, delete/);
    expect(lockNow().id).toBe('left');
  });

  it.each(['', 'not a lock', 'null', '{"pid":-1}', '{"pid":"1"}'])('that reads %j is respected, and the remedy named', (text) => {
    writeFileSync(join(folder, 'lock'), text);
    expect(() => lockFolder(folder)).toThrow(/names no process.*delete that file/);
  });

  it('that somebody else has taken since is not removed by unlocking', () => {
    const unlock = lockFolder(folder);
    leaveLock({});
    unlock();
    expect(lockNow().id).toBe('left');
  });
});
