// Builds the scripts and the style sheet of the pages into dist/console/client: each file of this folder is an entry, what stands
// in a folder below is shared. Run by `npm run build`, and by hand after a change: `npm run client`. A file is put in its place whole,
// and only if it changed: a server may be serving it.

import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const folder = fileURLToPath(new URL('.', import.meta.url));
const { outputFiles } = await build({
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
  write: false,
});
for (const { path, contents } of outputFiles) {
  if (existsSync(path) && readFileSync(path).equals(contents)) continue;
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(`${path}.${process.pid}`, contents);
  renameSync(`${path}.${process.pid}`, path);
}
