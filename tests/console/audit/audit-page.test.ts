// The audit trail on a page: newest first, page by page, and each change as what it was and is.

import { describe, expect, it } from 'vitest';
import { auditRoutes } from '../../../src/console/audit/audit-page.tsx';
import { toldIn } from '../../../src/console/audit/said-change.tsx';
import type { ConsoleParts } from '../../../src/console/ports.ts';
import type { AuditLine, AuditPage } from '../../../src/conversation/watch.ts';
import { demoRoster } from '../../support/desk.ts';
import { ask, fakeParts, htmlOf, noon, visitOf } from '../fake-visit.ts';

const line = (number: number, more: Partial<AuditLine> = {}): AuditLine => ({
  key: `line:${number}`,
  at: noon - number,
  by: 'rose',
  what: 'published',
  about: String(number),
  body: null,
  ...more,
});
const facility = { id: 'marula', zone: 'Africa/Nairobi' };

function world(trail: readonly AuditLine[]) {
  const asked: AuditPage[] = [];
  const parts = fakeParts([], {
    watch: {
      auditTrail: async (page: AuditPage) => {
        asked.push(page);
        const from = page.before === undefined ? 0 : trail.findIndex(({ key }) => key === page.before) + 1;
        return trail.slice(from, from + page.limit);
      },
    } as unknown as ConsoleParts['watch'],
    roster: { ...demoRoster, facilityOf: () => facility, data: () => ({ facilities: [facility] }) } as unknown as ConsoleParts['roster'],
  });
  const get = (query: Record<string, string> = {}) => ask(auditRoutes, 'get', '/audit', visitOf(parts, { query }));
  return { asked, get };
}
const aboutIn = (html: string): string[] => [...html.matchAll(/<td>(\d+)<\/td>/g)].map(([, about]) => about ?? '');

it('shows fifty lines, and leads to the older ones and back', async () => {
  const trail = Array.from({ length: 51 }, (_, at) => line(at));
  const { get } = world(trail);
  const first = htmlOf(await get());
  expect(aboutIn(first)).toEqual(trail.slice(0, 50).map(({ about }) => about));
  expect(first).toContain('href="/console/audit?before=line%3A49"');
  expect(first).not.toContain('audit.newest');
  const second = htmlOf(await get({ before: 'line:49' }));
  expect(aboutIn(second)).toEqual(['50']);
  expect(second).toContain('href="/console/audit"');
  expect(second).not.toContain('audit.older');
});

it('names people of the roster, says the hour by their clock, and tells apart what was and what is', async () => {
  const body = { before: { name: 'A', language: 'en' }, after: { name: 'B', language: 'en' } };
  const html = htmlOf(await world([line(1, { by: '+254700555012', about: '+254700555101', what: 'person-changed', body })]).get());
  expect(html).toContain('<td>Nurse Wanjiru</td>');
  expect(html).toContain('<td>Akinyi Odera</td>');
  expect(html).toContain('27 Nov 2026 11:59 GMT+3');
  expect(html).toContain('audit.changed before=A after=B');
  expect(html).not.toContain('language');
});

it('says what it has no words for by its name', async () => {
  expect(htmlOf(await world([line(1, { what: 'moon-landed' })]).get())).toContain('moon landed');
});

it('says so when there is nothing, and nothing older', async () => {
  expect(htmlOf(await world([]).get())).toContain('audit.none');
  expect(htmlOf(await world([line(1)]).get({ before: 'line:1' }))).toContain('audit.none-older');
});

describe('what a line holds', () => {
  it.each([
    ['nothing', null, []],
    ['a text', 'x', [['', null, 'x']]],
    [
      'fields',
      { role: 'nurse', phone: null, times: 2 },
      [
        ['role', null, 'nurse'],
        ['times', null, '2'],
      ],
    ],
    ['something added', { before: null, after: { name: 'A' } }, [['name', null, 'A']]],
    ['something taken out', { before: { roles: ['nurse'] }, after: null }, [['roles', '["nurse"]', null]]],
    ['a change of one field', { before: { a: 1, b: 2 }, after: { a: 1, b: 3 } }, [['b', '2', '3']]],
    ['a list', ['a', 'b'], [['', null, '["a","b"]']]],
  ])('is told whatever its shape: %s', (_, body, told) => {
    expect(toldIn(body).map(({ name, before, after }) => [name, before, after])).toEqual(told);
  });
});
