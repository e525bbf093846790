// A process of our own: started, awaited until it says a certain thing, signalled and ended by its own number.
// Next: redis-server.ts, postgres-server.ts, child-script.ts.

import { type SpawnOptions, spawn } from 'node:child_process';

export interface StartedProcess {
  readonly pid: number;
  /** All that it had said when it said the sign. */
  readonly said: string;
  /** All that it has said by now. */
  saidSoFar(): string;
  signal(name: NodeJS.Signals): void;
  /** Sends the signal and resolves when the process has ended. */
  end(name: NodeJS.Signals): Promise<void>;
  /** Resolves when the process has ended, with all that it said. */
  readonly ended: Promise<string>;
}

/**
 * Starts a command, and resolves when it has said `sign` on either of its outputs.
 *
 * Errors   the command is not there (`remedy` is named), or ends before it says so (its outputs are quoted).
 */
export function startProcess(
  command: string,
  args: readonly string[],
  { sign, remedy, ...options }: SpawnOptions & { readonly sign: string; readonly remedy: string },
): Promise<StartedProcess> {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, { ...options, stdio: ['ignore', 'pipe', 'pipe'] });
    const ended = new Promise<string>((gone) => child.once('close', () => gone(said)));
    const endWithUs = () => child.kill('SIGKILL');
    process.once('exit', endWithUs);
    let said = '';

    const listen = (chunk: Buffer) => {
      said += chunk;
      if (!said.includes(sign) || child.pid === undefined) return;
      resolve({
        pid: child.pid,
        said,
        saidSoFar: () => said,
        signal: (name) => void child.kill(name),
        end: (name) => {
          child.kill(name);
          return ended.then(() => {});
        },
        ended,
      });
    };
    child.stdout?.on('data', listen);
    child.stderr?.on('data', listen);
    child.once('error', (cause) => reject(new Error(`${command} could not be started (${cause.message}). ${remedy}`, { cause })));
    child.once('close', (code) => {
      process.off('exit', endWithUs);
      reject(new Error(`${command} ended with ${code} before it said "${sign}". It said:\n${said}`));
    });
  });
}
