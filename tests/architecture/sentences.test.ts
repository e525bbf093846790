// What a phone shows stands in locales, where a coordinator can change it and a translator finds it. A sentence in the
// code that answers phones would reach a worker in one language, untranslated and unchecked for length.
// Next: sentences.ts (how a sentence is told).

import { expect, it } from 'vitest';
import { sentencesIn } from './sentences.ts';
import { filesUnder, textOf } from './tree.ts';

const folders = ['dialog', 'conversation', 'messages', 'on-call', 'channels', 'console'];

interface Allowed {
  readonly path: string;
  readonly text: string;
  readonly because: string;
}

const refusal = 'answers a post with a status of 400 or more, which a gateway logs and passes to no phone';

/** Sentences that no phone shows, each with its reason. */
const allowed: readonly Allowed[] = [
  { path: 'src/channels/server.ts', text: 'the request could not be read', because: refusal },
  { path: 'src/channels/sms/webhook.ts', text: 'signature missing or wrong', because: refusal },
  { path: 'src/channels/answer-gateway.ts', text: 'fields missing, sent twice or malformed: {}', because: refusal },
  { path: 'src/channels/sms/webhook.ts', text: 'not answered; try the fallback', because: refusal },
  { path: 'src/channels/sms/status.ts', text: 'signature missing or wrong', because: refusal },
  { path: 'src/channels/sms/status.ts', text: 'not written; bring it again', because: refusal },
  { path: 'src/channels/ussd/webhook.ts', text: 'secret missing or wrong', because: refusal },
  { path: 'src/channels/kannel/webhook.ts', text: 'secret missing or wrong', because: refusal },
  { path: 'src/channels/kannel/webhook.ts', text: 'too many at once; bring it again', because: refusal },
  { path: 'src/channels/kannel/webhook.ts', text: 'not answered; bring it again', because: refusal },
  { path: 'src/channels/kannel/status.ts', text: 'secret missing or wrong', because: refusal },
  { path: 'src/channels/kannel/status.ts', text: 'not written; bring it again', because: refusal },
  { path: 'src/channels/watching/watching.ts', text: 'token missing or wrong', because: refusal },
];

/** Tells a collector of figures, in English, what each of them is. */
const forMachines = 'src/channels/watching/measures.ts';

it('keeps sentences out of the code that answers phones', () => {
  const files = folders.flatMap((folder) => filesUnder(`src/${folder}`)).filter((path) => /\.tsx?$/.test(path) && path !== forMachines);
  expect(files.length).toBeGreaterThan(folders.length);
  const found = files.flatMap((path) => sentencesIn(path, textOf(path)));
  const known = (path: string, text: string) => allowed.some((one) => one.path === path && one.text === text);
  expect(found.filter(({ path, text }) => !known(path, text))).toEqual([]);
});

it('allows only sentences that are still there', () => {
  const gone = allowed.filter(({ path, text }) => !sentencesIn(path, textOf(path)).some((one) => one.text === text));
  expect(gone).toEqual([]);
});

it.each([
  ['a string', `const text = 'Keep the baby warm now.';`, 'Keep the baby warm now.'],
  ['a template with values', `const text = \`Ring \${nurse} about this baby.\`;`, 'Ring {} about this baby.'],
  ['a branch inside a call', `say(late ? 'Too late for this one.' : key);`, 'Too late for this one.'],
])('finds a sentence in %s', (_place, source, text) => {
  expect(sentencesIn('planted.ts', source)).toEqual([{ path: 'planted.ts', line: 1, text }]);
});

it.each([
  ['a key', `say('result.keep-the-baby-warm');`],
  ['a comment', '// Keep the baby warm now.\nconst x = 1;'],
  ['an error', `throw new TypeError('Pass the time in, not a date.');`],
  ['the log', `log.warn({ door }, 'a wrong signature was refused');`],
  ['a type', `type Told = 'Keep the baby warm now.';`],
])('takes no offence at %s', (_place, source) => {
  expect(sentencesIn('planted.ts', source)).toEqual([]);
});
