// From the start of a server to its first reply, and what it holds in memory then; `pipit check`. On this Node, and on those that
// BENCH_NODES names (paths of node, with colons), side by side. Next: run.ts.

import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { buildCommand } from '../support/end-to-end-build.ts';
import { freePort } from '../support/free-port.ts';
import { startProcess } from '../support/started-process.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { type Bench, root } from './bench.ts';
import { spreadOf } from './spread.ts';

interface Started {
  readonly milliseconds: number;
  readonly residentMegabytes: number;
}

export async function measureStart({ isShort, rounds, print }: Bench): Promise<void> {
  const built = buildCommand();
  const nodes = [process.execPath, ...(process.env.BENCH_NODES ?? '').split(':').filter((path) => path !== '')];
  const started = nodes.map((): Started[] => []);
  const checked = nodes.map((): number[] => []);
  for (let round = 0; round < (isShort ? 1 : rounds); round += 1) {
    for (const [at, node] of nodes.entries()) {
      started[at]?.push(await startAndAsk(node, built.command));
      checked[at]?.push(secondsOfCheck(node, built.command));
    }
  }
  for (const [at, node] of nodes.entries()) {
    const version = spawnSync(node, ['--version'], { encoding: 'utf8' }).stdout.trim();
    print({
      bench: 'start-to-first-reply',
      node: version,
      unit: 'milliseconds',
      ...spreadOf(
        (started[at] ?? []).map(({ milliseconds }) => milliseconds),
        0,
      ),
      residentMegabytes: spreadOf(
        (started[at] ?? []).map(({ residentMegabytes }) => residentMegabytes),
        0,
      ),
      method: 'pipit serve --development, built, with a new embedded database, until the answer to its first text',
    });
    print({
      bench: 'check',
      node: version,
      unit: 'seconds',
      ...spreadOf(checked[at] ?? [], 2),
      method: 'pipit check of the files that ship, built, start included',
    });
  }
  built.remove();
}

async function startAndAsk(node: string, command: string): Promise<Started> {
  const folder = temporaryFolder();
  const port = await freePort();
  const began = performance.now();
  const server = await startProcess(node, [command, 'serve', '--development'], {
    cwd: root,
    env: { PATH: process.env.PATH, HOME: process.env.HOME, PORT: String(port), PIPIT_DATA: folder.path },
    sign: 'pipit is listening',
    remedy: 'Run npm install.',
  });
  const form = new URLSearchParams({ MessageSid: 'SM1', From: '+254700555101', Body: 'BABY', To: '+254700000999' });
  const answer = await fetch(`http://127.0.0.1:${port}/sms`, { method: 'POST', body: form });
  if (answer.status !== 200) throw new Error(`The first text was answered with ${answer.status}. Run the end-to-end tests first.`);
  await answer.text();
  const milliseconds = performance.now() - began;
  const residentMegabytes = residentOf(server.pid);
  await server.end('SIGTERM');
  folder.remove();
  return { milliseconds, residentMegabytes };
}

/** Of a process of this machine, as Linux tells it. */
function residentOf(pid: number): number {
  return Number(/^VmRSS:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024;
}

function secondsOfCheck(node: string, command: string): number {
  const began = performance.now();
  const { status, stderr } = spawnSync(node, [command, 'check'], { cwd: root, encoding: 'utf8' });
  if (status !== 0) throw new Error(`pipit check ended with ${status}: ${stderr}`);
  return (performance.now() - began) / 1000;
}
