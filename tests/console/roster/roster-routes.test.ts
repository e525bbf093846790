// The roster on a page: who is on call, and its tables saved whole or not at all.

import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { writeRoster } from '../../../src/authoring/write-roster.ts';
import { loadRoster } from '../../../src/cli/load-roster.ts';
import { stretchesOf } from '../../../src/console/roster/on-call-week.ts';
import { rosterRoutes } from '../../../src/console/roster/roster-routes.ts';
import type { RosterData } from '../../../src/conversation/roster.ts';
import { onCallAt, rotaOf } from '../../../src/on-call/rota.ts';
import { ask, fakeParts, htmlOf, noon, visitOf } from '../fake-visit.ts';

const demo = loadRoster(fileURLToPath(new URL('../../../flows/demo', import.meta.url)));
const week = 7 * 24 * 60 * 60_000;
const hour = 60 * 60_000;

function world() {
  const imported: { data: RosterData; by: string }[] = [];
  const stored = { number: 5, data: demo };
  const parts = fakeParts([], {
    rosterEdits: {
      read: async () => stored,
      import: async (data, by, seen) => {
        if (seen !== stored.number) return null;
        imported.push({ data, by });
        return 2;
      },
    },
  });
  const get = async (query: Record<string, string> = {}) => htmlOf(await ask(rosterRoutes, 'get', '/roster', visitOf(parts, { query })));
  const post = (form: Record<string, string>) => ask(rosterRoutes, 'post', '/roster', visitOf(parts, { form }));
  return { imported, stored, get, post };
}
const texts = { ...writeRoster(demo) };

describe('who is on call', () => {
  it.each(demo.facilities.map((facility) => [facility.id, facility] as const))(
    'is told for a week as the rota has it: %s',
    (_, facility) => {
      const stretches = stretchesOf(facility, demo, noon, noon + week);
      expect(stretches[0]?.from).toBe(noon);
      expect(stretches.at(-1)?.until).toBe(noon + week);
      const rota = rotaOf(facility, demo);
      for (const [at, { from, until, phones }] of stretches.entries()) {
        expect(stretches[at + 1]?.from ?? until).toBe(until);
        for (const moment of [from, from + hour / 2, until - 1]) expect([moment, onCallAt(rota, moment)]).toEqual([moment, phones]);
      }
    },
  );

  it('names who is asked instead where nobody of the facility is on call', async () => {
    const html = await world().get();
    // Friday noon in Nairobi: Acacia is staffed on weekdays until five.
    expect(html).toContain('roster.now who=Nurse Chebet');
    expect(html).toContain('roster.nobody-here who=Nurse Njeri, Nurse Amina');
    expect(html).toContain('<td>Fri 27 Nov 17:00</td>');
  });
});

describe('the tables', () => {
  it('stand as they are exported', async () => {
    const html = await world().get();
    for (const table of ['facilities', 'people', 'rota', 'leave'] as const) {
      const shown = new RegExp(`<textarea id="${table}"[^>]*>([^<]*)<`).exec(html)?.[1];
      expect(shown).toBe(texts[table].replace(/^\uFEFF/, ''));
    }
  });

  it('are imported whole, in the name of who saved them', async () => {
    const { post, imported, get } = world();
    const people = texts.people.replace('Akinyi Odera', 'Akinyi Otieno').replaceAll('\n', '\r\n');
    expect(await post({ ...texts, people, seen: '5' })).toEqual({ kind: 'to', path: '/roster?imported=2' });
    expect(imported).toEqual([
      {
        by: 'rose',
        data: { ...demo, people: demo.people.map((one) => (one.name === 'Akinyi Odera' ? { ...one, name: 'Akinyi Otieno' } : one)) },
      },
    ]);
    expect(await get({ imported: '2' })).toContain('roster.imported count=2');
  });

  it('are refused with what is wrong line by line, and keep what was typed', async () => {
    const { post, imported } = world();
    const people = texts.people.replace('worker,marula,en', 'worker,marola,en');
    const answer = await post({ ...texts, people, seen: '5' });
    expect(answer).toMatchObject({ kind: 'page', status: 422 });
    const html = htmlOf(answer);
    expect(html).toContain('roster.refused');
    expect(html).toMatch(/roster\.error line=2<\/strong>[^<]*marola/);
    expect(html).toMatch(/<textarea id="people"[^>]*aria-invalid="true"[^>]*>[^<]*marola/);
    expect(imported).toEqual([]);
  });

  it('are not saved over what somebody imported since; the difference is shown, and a second save takes hers', async () => {
    const { post, imported, stored } = world();
    const people = texts.people.replace('Akinyi Odera', 'Akinyi Otieno');
    stored.number = 6;
    const answer = await post({ ...texts, people, seen: '5' });
    expect(answer).toMatchObject({ kind: 'page', status: 409 });
    const html = htmlOf(answer);
    expect(html).toContain('roster.overtaken');
    expect(html).toContain('<ins><code>+254700555101,Akinyi Otieno,');
    expect(html).toContain('name="seen" value="6"');
    expect(imported).toEqual([]);
    await post({ ...texts, people, seen: '6' });
    expect(imported).toHaveLength(1);
  });

  it('are refused when they are not there at all', async () => {
    const { post, imported } = world();
    expect(await post({ seen: '5' })).toMatchObject({ status: 422 });
    expect(imported).toEqual([]);
  });
});
