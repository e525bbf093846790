// The command as JavaScript in a temporary folder: it starts in less than half the time that a loader of TypeScript takes,
// which counts where a test starts dozens of processes. Types are not looked at here; `npm run types` does that.
// Where it starts hundreds, what only checks the protocol for its authors is left out: more than half of a start, and the same
// at each. What is served is the same.

import { cpSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { temporaryFolder } from './temporary-folder.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

export interface Built {
  /** The command's file, for Node. */
  readonly command: string;
  remove(): void;
}

/** Modules that check and change nothing of what is served, each with what stands in for it. */
const authorsChecks: Readonly<Record<string, string>> = {
  'authoring/read-reference-cases.ts': 'export const readReferenceCases = () => [];',
  'authoring/checks/floor-coverage.ts': 'export const checkFloorCoverage = () => {};',
  'authoring/read-sign-off.ts': 'export const readSignOff = () => [];',
};

export function buildCommand({ isUnchecked = false } = {}): Built {
  const folder = temporaryFolder();
  for (const shared of ['node_modules', 'flows', 'locales', 'package.json']) symlinkSync(join(root, shared), join(folder.path, shared));
  for (const file of readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })) {
    const from = join(root, 'src', file);
    const to = join(folder.path, 'dist', file.replace(/\.tsx?$/, '.js'));
    if (!/\.(tsx?|lua|sql)$/.test(file) || file.endsWith('.d.ts')) continue;
    mkdirSync(dirname(to), { recursive: true });
    const standIn = isUnchecked ? authorsChecks[file] : undefined;
    if (standIn !== undefined) writeFileSync(to, standIn);
    else if (/\.tsx?$/.test(file)) writeFileSync(to, toJavaScript(readFileSync(from, 'utf8'), from));
    else cpSync(from, to);
  }
  return { command: join(folder.path, 'dist', 'cli', 'pipit.js'), remove: folder.remove };
}

function toJavaScript(source: string, fileName: string): string {
  const compilerOptions = {
    target: ts.ScriptTarget.ES2023,
    module: ts.ModuleKind.ESNext,
    verbatimModuleSyntax: true,
    rewriteRelativeImportExtensions: true,
    jsx: ts.JsxEmit.ReactJSX,
    jsxImportSource: 'preact',
  };
  return ts.transpileModule(source, { fileName, compilerOptions }).outputText;
}
