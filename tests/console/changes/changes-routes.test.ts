// The draft against what is in force: what the page says of it, and what becomes of publishing and of going back.

import { describe, expect, it } from 'vitest';
import type { Change } from '../../../src/authoring/changes/change.ts';
import type { Diagnostic } from '../../../src/authoring/diagnostic.ts';
import { changesRoutes } from '../../../src/console/changes/changes-routes.tsx';
import type { ConsoleParts, CostChange, PublishedOutcome } from '../../../src/console/ports.ts';
import type { Publication } from '../../../src/conversation/publications.ts';
import { emptyRoster } from '../../../src/conversation/roster.ts';
import { ask, fakeParts, htmlOf, noon, visitOf } from '../fake-visit.ts';

const files = [
  { name: 'flows/a.yaml', text: 'one: 1\n' },
  { name: 'flows/b.yaml', text: 'two: 2\n' },
];
const publication = (number: number, more: Partial<Publication> = {}): Publication => ({
  number,
  version: `version-of-${number}`,
  by: 'amina',
  at: noon,
  note: null,
  restores: null,
  ...more,
});
const place = { start: { line: 7, column: 1 }, end: { line: 7, column: 2 } };
const fault = (severity: Diagnostic['severity']): Diagnostic => ({
  code: 'a/b',
  severity,
  file: 'flows/a.yaml',
  range: place,
  what: `What is ${severity}.`,
  why: 'Why.',
  fix: 'Mend.',
  related: [],
});

interface World {
  readonly changes?: readonly Change[] | null;
  readonly costs?: readonly CostChange[] | null;
  readonly diagnostics?: readonly Diagnostic[];
  readonly outcome?: PublishedOutcome;
  readonly history?: readonly Publication[];
}

function world({
  changes = [],
  costs = [],
  diagnostics = [],
  outcome = { kind: 'published', number: 4 },
  history = [publication(3), publication(2)],
}: World = {}) {
  const calls: unknown[] = [];
  const called = async (...given: unknown[]): Promise<PublishedOutcome> => {
    calls.push(given);
    return outcome;
  };
  const parts = fakeParts(files, {
    workshop: {
      changes: async () => changes,
      costs: async () => costs,
      check: async () => diagnostics,
    } as unknown as ConsoleParts['workshop'],
    publishing: { publish: called, undo: called } as ConsoleParts['publishing'],
    publications: { list: async (limit: number) => history.slice(0, limit) } as unknown as ConsoleParts['publications'],
    roster: { facilityOf: () => undefined, data: () => emptyRoster } as unknown as ConsoleParts['roster'],
  });
  const draft = (text: string, seen = 0) => parts.drafts.save({ name: 'flows/a.yaml', text, by: 'rose', at: noon }, seen);
  const get = async (query: Record<string, string> = {}) => htmlOf(await ask(changesRoutes, 'get', '/changes', visitOf(parts, { query })));
  const post = (path: string, form: Record<string, string>) => ask(changesRoutes, 'post', path, visitOf(parts, { form }));
  const markOn = (html: string): string => /name="mark" value="([^"]+)"/.exec(html)?.[1] ?? '';
  const publish = async (more: Record<string, string> = {}) => post('/changes/publish', { seen: '3', mark: markOn(await get()), ...more });
  return { parts, calls, draft, get, post, publish, markOn };
}

describe('the page of changes', () => {
  it('says that there is no draft, or that it says the same', async () => {
    const { get, draft } = world();
    expect(await get()).toContain('publish.no-draft');
    await draft('one: 1\n');
    const html = await get();
    expect(html).toContain('publish.draft-as-published');
    expect(html).not.toContain('changes/publish');
  });

  it('says in words what the draft would change, in the order given, each leading to its line', async () => {
    const changes: Change[] = [
      { kind: 'rule-removed', values: { classification: 'x', rule: 'y' }, file: 'flows/a.yaml', line: 9, edition: 'before' },
      { kind: 'flow-added', values: { flow: 'z' }, file: 'flows/b.yaml', line: 3, edition: 'after' },
    ];
    const { get, draft } = world({ changes });
    await draft('one: 11\n');
    const html = await get();
    expect(html.indexOf('change.rule-removed')).toBeLessThan(html.indexOf('change.flow-added'));
    expect(html).toContain('href="/console/edit?file=flows%2Fb.yaml&amp;line=3"');
    // What was taken out has no line in the draft.
    expect(html).toContain('href="/console/edit?file=flows%2Fa.yaml">');
    expect(html).toContain('<del><code>one: 1</code></del>');
    expect(html).toContain('<ins><code>one: 11</code></ins>');
  });

  it.each([
    ['an error', [fault('warning'), fault('error')], true],
    ['a warning', [fault('warning')], false],
    ['nothing', [], false],
  ])('lets publish unless check finds an error: %s', async (_, diagnostics, isBlocked) => {
    const { get, draft } = world({ diagnostics });
    await draft('one: 11\n');
    const html = await get();
    expect(/<button type="submit" class="main" disabled/.test(html)).toBe(isBlocked);
    expect(html.includes('publish.blocked')).toBe(isBlocked);
    for (const { what } of diagnostics) expect(html).toContain(what);
    if (isBlocked) expect(html.indexOf('What is error.')).toBeLessThan(html.indexOf('What is warning.'));
  });

  it('says what an examination costs more and less, by language and channel, and leaves out where it costs the same', async () => {
    const before = { exchanges: 20, segmentsIn: 20, segmentsOut: 55 };
    const costs: CostChange[] = [
      { language: 'hi', channel: 'sms', way: 'all normal', before, after: { exchanges: 21, segmentsIn: 20, segmentsOut: 53 } },
      { language: 'hi', channel: 'ussd', way: 'quickest', before, after: { ...before, exchanges: 18 } },
      { language: 'sw', channel: 'sms', way: 'quickest', before, after: before },
    ];
    const { get, draft } = world({ costs });
    await draft('one: 11\n');
    const html = await get();
    expect([...html.matchAll(/<li>(cost\.line [^<]*)/g)].map(([, line]) => line?.trim())).toEqual([
      'cost.line differing=cost.texts sign=+ count=1, cost.segments-out sign=− count=2 language=Hindi channel=sms',
      'cost.line differing=cost.screens sign=− count=2 language=Hindi channel=ussd',
    ]);
    expect(html).not.toContain('Swahili');
  });

  it.each([
    ['costs the same', [], 'cost.same'],
    ['cannot be counted', null, 'cost.unknown'],
  ])('says so when an examination %s', async (_, costs, words) => {
    const { get, draft } = world({ costs });
    await draft('one: 11\n');
    expect(await get()).toContain(words);
  });

  it('says so when a file cannot be read', async () => {
    const { get, draft } = world({ changes: null, diagnostics: [fault('error')] });
    await draft('one: [');
    expect(await get()).toContain('publish.unreadable');
  });

  it('shows who published what, when, why, and what it brought back', async () => {
    const history = [
      publication(3, { restores: 1, by: 'rose' }),
      publication(2, { note: 'Shorter words' }),
      publication(1, { by: 'pipit' }),
    ];
    const html = await world({ history }).get();
    expect(html).toContain('publish.restores number=1');
    expect(html).toContain('Shorter words');
    expect(html).toContain('27 Nov 2026 09:00 UTC');
    expect([...html.matchAll(/name="to" value="(\d+)"/g)].map(([, number]) => number)).toEqual(['2', '1']);
    expect(html).toContain('publish.undo number=3');
  });

  it('offers no way back before there is one, and all publications when there are many', async () => {
    expect(await world({ history: [] }).get()).toContain('publish.never');
    expect(await world({ history: [publication(1)] }).get()).not.toContain('changes/undo');
    const many = Array.from({ length: 21 }, (_, at) => publication(21 - at));
    const { get } = world({ history: many });
    expect(await get()).toContain('/console/changes?history=all');
    const all = await get({ history: 'all' });
    expect(all).toContain('value="1"');
    expect(all).not.toContain('history=all');
  });
});

describe('publishing', () => {
  it('publishes all files with the draft in them, in the name of who did and with her note, and ends the draft', async () => {
    const { parts, calls, draft, publish } = world();
    await draft('one: 11\n');
    expect(await publish({ note: ' Clearer ' })).toEqual({ kind: 'to', path: '/changes?published=4' });
    expect(calls).toEqual([[[{ name: 'flows/a.yaml', text: 'one: 11\n' }, files[1]], 3, { by: 'rose', note: 'Clearer' }]]);
    expect(parts.drafts.files.size).toBe(0);
    expect(await world().get({ published: '4' })).toContain('publish.published number=4');
  });

  it.each<[string, PublishedOutcome, string]>([
    ['check refuses it', { kind: 'refused', diagnostics: [fault('error')] }, 'What is error.'],
    ['somebody published since', { kind: 'overtaken', by: publication(4) }, 'publish.overtaken number=4 name=amina'],
    ['these files are in force', { kind: 'same', number: 3 }, 'publish.same'],
  ])('says in words when nothing was published and keeps draft and note: %s', async (_, outcome, words) => {
    const { parts, draft, publish } = world({ outcome });
    await draft('one: 11\n');
    const answer = await publish({ note: 'Clearer' });
    expect(answer).toMatchObject({ kind: 'page', status: 409 });
    expect(htmlOf(answer)).toContain(words);
    expect(htmlOf(answer)).toMatch(/name="note"[^>]*value="Clearer"/);
    expect(parts.drafts.files.size).toBe(1);
  });

  it('publishes nothing that was drafted since the page was made', async () => {
    const { calls, draft, get, post, markOn } = world();
    await draft('one: 11\n');
    const mark = markOn(await get());
    await draft('one: 12\n', 1);
    const html = htmlOf(await post('/changes/publish', { seen: '3', mark }));
    expect(html).toContain('publish.drafted-since');
    expect(html).toContain('one: 12');
    expect(calls).toEqual([]);
  });

  it('publishes nothing when there is no draft', async () => {
    const { calls, post } = world();
    expect(htmlOf(await post('/changes/publish', { seen: '3', mark: '' }))).toContain('publish.no-draft');
    expect(calls).toEqual([]);
  });

  it('keeps what somebody saved while the files were proved', async () => {
    const { parts, draft, publish } = world();
    await draft('one: 11\n');
    const { discard } = parts.drafts;
    parts.drafts.discard = async (name, save) => {
      await draft('one: 12\n', 1);
      await discard(name, save);
    };
    await publish();
    expect(parts.drafts.files.get('flows/a.yaml')?.text).toBe('one: 12\n');
  });
});

describe('going back', () => {
  it.each([
    ['the last publication is undone', {}, undefined],
    ['an older one is brought back', { to: '1' }, 1],
  ])('is one post: %s', async (_, form, to) => {
    const { calls, post } = world();
    expect(await post('/changes/undo', { seen: '3', ...form })).toEqual({ kind: 'to', path: '/changes?published=4' });
    expect(calls).toEqual([[3, { by: 'rose', note: null }, to]]);
  });

  it.each<[string, PublishedOutcome, string]>([
    ['check refuses it', { kind: 'refused', diagnostics: [fault('error')] }, 'publish.refused'],
    ['there is no such publication', { kind: 'unknown' }, 'publish.unknown'],
    ['it is in force', { kind: 'same', number: 3 }, 'publish.same'],
  ])('says in words when nothing was brought back: %s', async (_, outcome, words) => {
    const answer = await world({ outcome }).post('/changes/undo', { seen: '3', to: '9' });
    expect(answer).toMatchObject({ kind: 'page', status: 409 });
    expect(htmlOf(answer)).toContain(words);
  });

  it('undoes nothing that somebody published since', async () => {
    const { calls, post } = world({ history: [publication(4), publication(3)] });
    expect(htmlOf(await post('/changes/undo', { seen: '3' }))).toContain('publish.overtaken number=4');
    expect(calls).toEqual([]);
  });
});
