// A folder for one test file, in the system's place for such. The caller removes it.

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export function temporaryFolder(): { readonly path: string; remove(): void } {
  const path = mkdtempSync(join(tmpdir(), 'pipit-'));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}
