// Builds the scripts and the style sheet of the pages into dist/console/client: each file of this folder is an entry, what stands
// in a folder below is shared. Run by `npm run build`, and by hand after a change: `npm run client`.

import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const folder = fileURLToPath(new URL('.', import.meta.url));
await build({
  entryPoints: readdirSync(folder)
    .filter((name) => /\.(tsx?|css)$/.test(name) && !name.endsWith('.d.ts'))
    .map((name) => `${folder}${name}`),
  outdir: fileURLToPath(new URL('../../../dist/console/client', import.meta.url)),
  bundle: true,
  format: 'esm',
  target: 'es2022',
  jsx: 'automatic',
  jsxImportSource: 'preact',
  minify: true,
  legalComments: 'linked',
  logLevel: 'warning',
});
