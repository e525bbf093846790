// /roster: who is on call, and the tables of the roster, edited by who may see all facilities: they are one import.
// Next: roster-page.tsx, save-roster.ts.

import { type Answer, coordinatorsOfAll, type Route, type Visit } from '../route.ts';
import { RosterPage } from './roster-page.tsx';
import { readTexts, type SavedRoster, saveRoster, type TableTexts, textsOf } from './save-roster.ts';

/** Takes  typed: what was not saved; null: as it is stored. */
async function show(visit: Visit, outcome: SavedRoster | null, typed: TableTexts | null): Promise<Answer> {
  const { say, formToken, parts } = visit;
  const { number, data } = await parts.rosterEdits.read();
  const stored = textsOf(data);
  const texts = typed ?? stored;
  const body = RosterPage({
    say,
    formToken,
    data,
    number,
    now: parts.now(),
    outcome,
    editing: { texts, stored, diagnostics: readTexts(texts).diagnostics },
  });
  const status = outcome === null || outcome.kind === 'imported' ? 200 : outcome.kind === 'refused' ? 422 : 409;
  return { kind: 'page', title: say('nav.roster'), body, status };
}

function showAsked(visit: Visit): Promise<Answer> {
  const { imported } = visit.query;
  return show(visit, /^\d+$/.test(imported ?? '') ? { kind: 'imported', changes: Number(imported) } : null, null);
}

async function save(visit: Visit): Promise<Answer> {
  const { form, account, parts } = visit;
  const plain = (text: string | undefined): string => (text ?? '').replaceAll('\r\n', '\n');
  const texts = { facilities: plain(form.facilities), people: plain(form.people), rota: plain(form.rota), leave: plain(form.leave) };
  const outcome = await saveRoster(texts, Number(form.seen), account.name, parts.rosterEdits);
  return outcome.kind === 'imported' ? { kind: 'to', path: `/roster?imported=${outcome.changes}` } : show(visit, outcome, texts);
}

export const rosterRoutes: readonly Route[] = [
  { method: 'get', path: '/roster', ...coordinatorsOfAll, answer: showAsked },
  { method: 'post', path: '/roster', ...coordinatorsOfAll, answer: save },
];
