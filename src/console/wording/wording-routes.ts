// /wording: every message, language beside language, and what is typed there into the draft. Next: wording-page.tsx, save-words.ts.

import { draftedFiles } from '../drafts/drafted.ts';
import { type Answer, coordinatorsOfAll, type Route, type Visit } from '../route.ts';
import { readChoice, writeChoice } from './choice.ts';
import { readWording } from './read-wording.ts';
import { areasOf, rowsOf } from './rows.ts';
import { type Edit, saveWords, type Unsaved } from './save-words.ts';
import { fieldName } from './table.tsx';
import { WordingPage } from './wording-page.tsx';

async function show(visit: Visit, outcome: { readonly saved: number | null; readonly unsaved: readonly Unsaved[] }): Promise<Answer> {
  const { parts, say, formToken, query } = visit;
  const inUse = parts.inUse();
  const wording = readWording(await draftedFiles(parts), inUse.catalogues.base);
  const choice = readChoice(query, wording.languages);
  const body = WordingPage({
    say,
    formToken,
    wording,
    areas: areasOf(wording),
    choice,
    shown: rowsOf(wording, readWording(inUse.files, inUse.catalogues.base), choice),
    saved: outcome.saved,
    unsaved: new Map(outcome.unsaved.map((one) => [fieldName(one.edit.tag, one.edit.key), one])),
  });
  const status = outcome.unsaved.length > 0 ? 409 : 200;
  return { kind: 'page', title: say('nav.wording'), body, status, scripts: ['wording'] };
}

function showAsked(visit: Visit): Promise<Answer> {
  const saved = /^\d+$/.test(visit.query.saved ?? '') ? Number(visit.query.saved) : null;
  return show(visit, { saved, unsaved: [] });
}

async function save(visit: Visit): Promise<Answer> {
  const { parts, account, query } = visit;
  const outcome = await saveWords(editsIn(visit.form), account.name, parts);
  // A row that could not be saved must stay on the page, whatever the choice would show now.
  if (outcome.unsaved.length > 0) return show(visit, outcome);
  const { languages } = readWording(parts.inUse().files, parts.inUse().catalogues.base);
  const choice = readChoice(query, languages);
  const address = writeChoice(choice, choice.page);
  return { kind: 'to', path: `/wording?${address}${address === '' ? '' : '&'}saved=${outcome.saved}` };
}

/** Forms write every line break as two characters. */
function editsIn(form: Visit['form']): Edit[] {
  const plain = (text: string): string => text.replaceAll('\r\n', '\n');
  return Object.entries(form).flatMap(([field, typed]) => {
    const [, tag, key] = /^now:([^:]+):(.+)$/s.exec(field) ?? [];
    if (tag === undefined || key === undefined) return [];
    const [was, now] = [plain(form[`was:${fieldName(tag, key)}`] ?? ''), plain(typed)];
    return was === now ? [] : [{ tag, key, was, now }];
  });
}

export const wordingRoutes: readonly Route[] = [
  { method: 'get', path: '/wording', ...coordinatorsOfAll, answer: showAsked },
  { method: 'post', path: '/wording', ...coordinatorsOfAll, answer: save },
];
