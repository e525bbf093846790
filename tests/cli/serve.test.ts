// `pipit serve` that cannot open its door ends, and says why: a process without a door would answer nobody, and nobody would start
// another.

import { type AddressInfo, createServer } from 'node:net';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { startProcess } from '../support/started-process.ts';

it('ends with the remedy when its port is taken', async () => {
  const other = createServer();
  await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
  const { port } = other.address() as AddressInfo;
  const { PATH = '', HOME = '' } = process.env;
  const started = startProcess(process.execPath, ['--import', 'tsx', 'src/cli/pipit.ts', 'serve', '--development'], {
    cwd: fileURLToPath(new URL('../..', import.meta.url)),
    env: { PATH, HOME, PIPIT_DATA: 'memory', PORT: String(port) },
    sign: 'pipit is listening',
    remedy: 'Run npm install.',
  });
  await expect(started).rejects.toThrow(
    new RegExp(`ended with 2 [\\s\\S]*Port ${port} on 127\\.0\\.0\\.1 cannot be opened\\. Stop what uses it`),
  );
  await new Promise((resolve) => other.close(resolve));
});
