// The house rules that a program can see. Each test lists the places that break one, so that the list is the work to do.
// Next: imports.test.ts (who may import whom), pure-folders.test.ts, sentences.test.ts.

import { expect, it } from 'vitest';
import { filesUnder, textOf, topLevel } from './tree.ts';

const everything = filesUnder('.');
const src = filesUnder('src');
const ours = [...src, ...filesUnder('tests'), ...filesUnder('flows'), ...filesUnder('locales')];
const code = [...src, ...filesUnder('tests')].filter((path) => /\.tsx?$/.test(path));

const allowedAtTop = [
  'DEVELOPERS.md',
  'LICENSE',
  'README.md',
  'flows',
  'locales',
  'package-lock.json',
  'package.json',
  'src',
  'tests',
  'tsconfig.json',
];
const drawers = ['utils', 'util', 'helpers', 'helper', 'common', 'manager', 'service', 'core', 'index', 'misc'];
const lineLimit = 300;

/** A language may be named with its region or script, as BCP 47 writes it; read-me files shout by custom. */
const kebab = /^\.?[a-z0-9]+(-[a-z0-9]+)*(\.[a-z0-9]+(-[a-z0-9]+)*)*$/;
const languageTag = /^locales\/[a-z]{2,3}(-[A-Za-z0-9]{2,8})*(\.yaml|\/|$)/;

it('sees the project', () => {
  expect(src).toContain('src/clinical/protocol.ts');
  expect(everything).toContain('package.json');
});

it('holds nothing at the top level but what a visitor expects', () => {
  expect(
    topLevel()
      .filter((name) => !name.startsWith('.'))
      .sort(),
  ).toEqual(allowedAtTop);
});

it('opens every file of src with what lives there', () => {
  const opening = { ts: '// ', tsx: '// ', css: '/* ', mjs: '// ', lua: '-- ', sql: '-- ', yaml: '# ' } as const;
  const silent = src
    .filter((path) => !path.endsWith('tsconfig.json'))
    .filter((path) => {
      const lines = textOf(path).split('\n');
      const first = lines[0]?.startsWith('#!') ? lines[1] : lines[0];
      return !first?.startsWith(opening[path.split('.').at(-1) as keyof typeof opening]);
    });
  expect(silent).toEqual([]);
});

it(`keeps every file of code within ${lineLimit} lines`, () => {
  const long = code.map((path) => ({ path, lines: textOf(path).trimEnd().split('\n').length })).filter(({ lines }) => lines > lineLimit);
  expect(long).toEqual([]);
});

it('names files and folders in kebab-case', () => {
  const odd = ours.filter((path) => {
    const names = (languageTag.test(path) ? path.replace(/^locales\/[^/.]+/, 'locales') : path).split('/');
    return !names.every((name) => kebab.test(name) || name === 'README.md');
  });
  expect(odd).toEqual([]);
});

it('has no drawer for things without a subject', () => {
  const words = (path: string) => path.split('/').flatMap((name) => name.split('.')[0]?.split('-') ?? []);
  expect(ours.filter((path) => words(path).some((word) => drawers.includes(word)))).toEqual([]);
});

it('has no barrels', () => {
  expect(code.filter((path) => /^export (type )?(\*|\{[^}]*\})( as \w+)? from /m.test(textOf(path)))).toEqual([]);
});

it('skips no test, and runs none alone', () => {
  const marks = /\b(describe|suite|it|test)(\.\w+)*\.(skip|only|todo|fails|skipIf|runIf)\b/;
  expect(code.filter((path) => marks.test(textOf(path)))).toEqual([]);
});

it('names tests as claims in the present tense', () => {
  const wish = /\b(describe|it|test)(\.\w+\([^\n]*\))?\(\s*['"`][^'"`\n]*\bshould\b/;
  expect(code.filter((path) => wish.test(textOf(path)))).toEqual([]);
});

it('waits for no clock in tests', () => {
  // A soak and a bench send loads that are paced by the clock, and are no tests.
  const paced = ['tests/soak/', 'tests/bench/load.ts'];
  const tests = code.filter((path) => path.startsWith('tests/') && !paced.some((one) => path.startsWith(one)));
  expect(tests.filter((path) => /\bsetTimeout\(|timers\/promises/.test(textOf(path)))).toEqual([]);
});

it('names no place that is only on one machine', () => {
  const machine = /(^|[^.\w/])\/(work|home|root|Users)\/|\b[A-Z]:\\\\?Users\b/m;
  const readable = everything.filter((path) => path !== 'LICENSE' && path !== 'package-lock.json');
  expect(readable.filter((path) => machine.test(textOf(path)))).toEqual([]);
});

it('locks every package with its integrity, and names no registry', () => {
  const lock = JSON.parse(textOf('package-lock.json')) as {
    packages: Record<string, { integrity?: string; resolved?: string; inBundle?: boolean }>;
  };
  const installed = Object.entries(lock.packages).filter(([path]) => path !== '');
  expect(installed.length).toBeGreaterThan(0);
  // What a package carries inside its own archive is held by that archive's integrity.
  const loose = installed.filter(([, one]) => (one.integrity === undefined && one.inBundle !== true) || one.resolved !== undefined);
  expect(loose.map(([path]) => path)).toEqual([]);
});
