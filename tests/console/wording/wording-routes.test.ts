// The table of wording: what it shows, and what becomes of what is typed into it.

import { describe, expect, it } from 'vitest';
import { wordingRoutes } from '../../../src/console/wording/wording-routes.ts';
import { ask, fakeParts, htmlOf, visitOf } from '../fake-visit.ts';

const header = (tag: string, alphabet: string, draft: string) =>
  `language: { tag: ${tag}, name: ${tag.toUpperCase()}, alphabet: ${alphabet}, draft: ${draft} }\n`;
const files = [
  { name: 'locales/en/language.yaml', text: header('en', 'gsm-7', 'no') },
  { name: 'locales/en/signs.yaml', text: 'messages:\n  signs:\n    fit: "fit"\n    pale: "pale"\n' },
  { name: 'locales/en/system.yaml', text: 'messages:\n  menu: { why: "Why" }\n' },
  { name: 'locales/hi/language.yaml', text: header('hi', 'ucs-2', 'yes') },
  { name: 'locales/hi/signs.yaml', text: 'messages:\n  signs: { fit: "दौरा", pale: "पीला" }\n' },
  { name: 'locales/sw/language.yaml', text: header('sw', 'gsm-7', 'no') },
  { name: 'locales/sw/signs.yaml', text: '# Kept.\nmessages:\n  signs:\n    fit: "degedege"\n' },
];
const sw = 'locales/sw/signs.yaml';

const keysIn = (html: string): string[] => [...html.matchAll(/<th scope="row"><code>([^<]+)/g)].map(([, key]) => key ?? '');
const page = async (query: Record<string, string>, parts = fakeParts(files)) =>
  htmlOf(await ask(wordingRoutes, 'get', '/wording', visitOf(parts, { query })));
const save = (parts: ReturnType<typeof fakeParts>, form: Record<string, string>, query: Record<string, string> = {}) =>
  ask(wordingRoutes, 'post', '/wording', visitOf(parts, { form, query }));

describe('the table', () => {
  it.each([
    ['nothing chosen', {}, ['signs.fit', 'signs.pale', 'menu.why']],
    ['a part', { area: 'system' }, ['menu.why']],
    ['a word', { search: 'PAL' }, ['signs.pale']],
    ['a word of the language beside', { 'lang-sw': 'on', search: 'degedege' }, ['signs.fit']],
    ['what is missing in Swahili', { 'lang-sw': 'on', only: 'missing' }, ['signs.pale', 'menu.why']],
    ['what is drafted, and nothing is', { only: 'drafted' }, []],
  ])('shows the messages that are chosen: %s', async (_, query, keys) => {
    expect(keysIn(await page(query))).toEqual(keys);
  });

  it('stands language beside language, the base first, and says which nobody reviewed', async () => {
    const html = await page({ 'lang-sw': 'on', 'lang-hi': 'on' });
    const heads = [...(html.match(/<thead>.*<\/thead>/s)?.[0] ?? '').matchAll(/<th scope="col">(.*?)<\/th>/gs)].map(([, head]) => head);
    expect(heads).toHaveLength(4);
    expect(heads.map((head) => head?.includes('wording.not-reviewed'))).toEqual([false, false, true, false]);
    expect(heads.slice(1).map((head) => /[A-Z]{2}/.exec(head ?? '')?.[0])).toEqual(['EN', 'HI', 'SW']);
  });

  it('measures each cell in the alphabet of its language, and warns in words', async () => {
    const parts = fakeParts([
      ...files.filter(({ name }) => name !== sw),
      { name: sw, text: `messages:\n  signs: { fit: "${'a'.repeat(56)}", pale: "ŋ {weight" }\n` },
    ]);
    const html = await page({ 'lang-sw': 'on', 'lang-hi': 'on', area: 'signs' }, parts);
    const meters = [...html.matchAll(/<p class="(meter[^"]*)">(.*?)<\/p>/gs)].map(([, kind, text]) => `${kind}: ${text}`);
    // Places are filled by the page: here the words are their keys.
    expect(meters[1]).toMatch(/^meter: wording\.fits units=4 room=45/);
    expect(meters[2]).toMatch(/^meter meter-over: wording\.over units=56 room=55 over=1/);
    expect(meters[5]).toMatch(/^meter meter-over: .*bracket/);
  });

  it('marks what the draft says otherwise, with what is in force', async () => {
    const parts = fakeParts(files);
    await parts.drafts.save({ name: sw, text: 'messages:\n  signs: { fit: "kifafa" }\n', by: 'amina', at: 1 }, 0);
    const html = await page({ 'lang-sw': 'on', only: 'drafted' }, parts);
    expect(keysIn(html)).toEqual(['signs.fit']);
    expect(html).toContain('wording.drafted words=degedege');
  });

  it('names a file that cannot be read, and shows the other languages', async () => {
    const parts = fakeParts(files.map((file) => (file.name === sw ? { ...file, text: 'messages: {' } : file)));
    const html = await page({}, parts);
    expect(html).toContain(`wording.unreadable file=${sw}`);
    expect(html).toContain('/console/edit?file=locales%2Fsw%2Fsigns.yaml');
    expect(html).toContain('दौरा');
  });

  it('holds thirty messages a page, and leads to the next with the same choice', async () => {
    const many = Array.from({ length: 31 }, (_, at) => `    s${at}: "x"\n`).join('');
    const parts = fakeParts(
      files.map((file) => (file.name.endsWith('en/signs.yaml') ? { ...file, text: `messages:\n  signs:\n${many}` } : file)),
    );
    const html = await page({ area: 'signs', 'lang-sw': 'on' }, parts);
    expect(keysIn(html)).toHaveLength(30);
    expect(html).toContain('href="/console/wording?lang-sw=on&amp;area=signs&amp;page=2"');
    expect(keysIn(await page({ area: 'signs', 'lang-sw': 'on', page: '2' }, parts))).toEqual(['signs.s30', 'signs.fit', 'signs.pale']);
    expect(keysIn(await page({ area: 'signs', 'lang-sw': 'on', page: '9' }, parts))).toEqual(['signs.s30', 'signs.fit', 'signs.pale']);
  });
});

describe('saving a page of the table', () => {
  it('writes what was changed into the draft, in the name of who did, and nothing else', async () => {
    const parts = fakeParts(files);
    const form = { 'was:sw:signs.fit': 'degedege', 'now:sw:signs.fit': 'kifafa', 'was:en:signs.fit': 'fit', 'now:en:signs.fit': 'fit' };
    const answer = await save(parts, form, { 'lang-sw': 'on', page: '1' });
    expect(answer).toEqual({ kind: 'to', path: '/wording?lang-sw=on&saved=1' });
    expect([...parts.drafts.files.values()]).toEqual([
      { name: sw, text: '# Kept.\nmessages:\n  signs:\n    fit: "kifafa"\n', by: 'rose', at: parts.now(), save: 1 },
    ]);
  });

  it('puts a new message where the base language has it, in the file of the same name', async () => {
    const parts = fakeParts(files);
    await save(parts, { 'was:sw:signs.pale': '', 'now:sw:signs.pale': 'rangi', 'was:sw:menu.why': '', 'now:sw:menu.why': 'Kwa nini' });
    expect(parts.drafts.files.get(sw)?.text).toBe('# Kept.\nmessages:\n  signs:\n    fit: "degedege"\n    pale: "rangi"\n');
    expect(parts.drafts.files.get('locales/sw/system.yaml')?.text).toBe('messages:\n  menu: { why: "Kwa nini" }\n');
  });

  it('keeps what somebody else saved meanwhile in other cells of the file', async () => {
    const parts = fakeParts(files);
    await parts.drafts.save({ name: sw, text: 'messages:\n  signs: { fit: "degedege", pale: "weupe" }\n', by: 'amina', at: 1 }, 0);
    await save(parts, { 'was:sw:signs.fit': 'degedege', 'now:sw:signs.fit': 'kifafa' });
    expect(parts.drafts.files.get(sw)?.text).toBe('messages:\n  signs: { fit: "kifafa", pale: "weupe" }\n');
  });

  it('tells of a cell that somebody else wrote meanwhile, and keeps both words', async () => {
    const parts = fakeParts(files);
    await parts.drafts.save({ name: sw, text: 'messages:\n  signs: { fit: "yake" }\n', by: 'amina', at: 1 }, 0);
    const answer = await save(parts, { 'was:sw:signs.fit': 'degedege', 'now:sw:signs.fit': 'yangu' }, { 'lang-sw': 'on' });
    expect(answer).toMatchObject({ kind: 'page', status: 409 });
    const html = htmlOf(answer);
    expect(html).toContain('wording.overtaken words=yake');
    expect(html).toMatch(/<textarea[^>]*name="now:sw:signs.fit"[^>]*>yangu</);
    expect(html).toContain('name="was:sw:signs.fit" value="yake"');
    expect(parts.drafts.files.get(sw)?.text).toContain('yake');
  });

  it('looks again when somebody saves the file between look and save', async () => {
    const parts = fakeParts(files);
    const { save: really } = parts.drafts;
    let others = 1;
    parts.drafts.save = async (file, seen) => {
      if (others-- > 0) await really({ name: sw, text: 'messages:\n  signs: { fit: "degedege", pale: "weupe" }\n', by: 'amina', at: 1 }, 0);
      return really(file, seen);
    };
    await save(parts, { 'was:sw:signs.fit': 'degedege', 'now:sw:signs.fit': 'kifafa' });
    expect(parts.drafts.files.get(sw)?.text).toBe('messages:\n  signs: { fit: "kifafa", pale: "weupe" }\n');
  });

  it('says so when nothing was changed, and when a file has no place for the words', async () => {
    const parts = fakeParts(files);
    expect(await save(parts, { 'was:sw:signs.fit': 'degedege', 'now:sw:signs.fit': 'degedege' })).toMatchObject({
      path: '/wording?lang-hi=on&saved=0',
    });
    const refused = await save(parts, { 'was:sw:signs': '', 'now:sw:signs': 'x', 'was:xx:signs.fit': '', 'now:xx:signs.fit': 'x' });
    expect(htmlOf(refused)).toContain('wording.not-saved count=2');
    expect(parts.drafts.files.size).toBe(0);
  });

  it('takes line breaks of a form for those of the file', async () => {
    const parts = fakeParts(files.map((file) => (file.name === sw ? { ...file, text: 'messages:\n  a: "x\\ny"\n' } : file)));
    expect(await save(parts, { 'was:sw:a': 'x\r\ny', 'now:sw:a': 'x\r\ny' })).toMatchObject({ kind: 'to' });
    expect(parts.drafts.files.size).toBe(0);
  });
});
