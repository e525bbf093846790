// /changes: the draft against what is in force, publishing it, the history of publications, and the way back.
// Next: draft-part.tsx, history-part.tsx, publish-draft.ts.

import { type Answer, coordinatorsOfAll, type Route, root, type Visit } from '../route.ts';
import { DraftPart } from './draft-part.tsx';
import { draftState } from './draft-state.ts';
import { HistoryPart } from './history-part.tsx';
import { zoneOf } from './moment.tsx';
import { bringBack, type Outcome, publishDraft } from './publish-draft.ts';
import { SaidOutcome } from './said-outcome.tsx';

const fewPublications = 20;
const mostPublications = 1000;
const longestNote = 200;

async function show(visit: Visit, outcome: Outcome | null): Promise<Answer> {
  const { parts, say, formToken, query, form } = visit;
  const limit = query.history === 'all' ? mostPublications : fewPublications;
  const [state, history] = await Promise.all([draftState(parts), parts.publications.list(limit)]);
  const zone = zoneOf(visit);
  const hasOlder = history.length === limit && limit < mostPublications;
  const note = outcome === null || outcome.kind === 'published' ? '' : (form.note ?? '');
  const body = (
    <>
      {outcome === null ? null : <SaidOutcome outcome={outcome} zone={zone} say={say} />}
      <DraftPart state={state} zone={zone} say={say} formToken={formToken} note={note} />
      <h2>{say('publish.history')}</h2>
      <HistoryPart history={history} older={hasOlder ? `${root}/changes?history=all` : null} zone={zone} say={say} formToken={formToken} />
    </>
  );
  const status = outcome === null || outcome.kind === 'published' ? 200 : 409;
  return { kind: 'page', title: say('nav.changes'), body, status };
}

function showAsked(visit: Visit): Promise<Answer> {
  const { published } = visit.query;
  return show(visit, /^\d+$/.test(published ?? '') ? { kind: 'published', number: Number(published) } : null);
}

/** What was published is shown by a page of its own, so that loading it anew publishes nothing. */
function answer(visit: Visit, outcome: Outcome): Answer | Promise<Answer> {
  return outcome.kind === 'published' ? { kind: 'to', path: `/changes?published=${outcome.number}` } : show(visit, outcome);
}

async function publish(visit: Visit): Promise<Answer> {
  const { form, account, parts } = visit;
  const note = (form.note ?? '').trim().slice(0, longestNote);
  const asked = { after: numberIn(form.seen), mark: form.mark ?? '', by: account.name, note: note === '' ? null : note };
  return answer(visit, await publishDraft(asked, parts));
}

async function undo(visit: Visit): Promise<Answer> {
  const { form, account, parts } = visit;
  const asked = { after: numberIn(form.seen), by: account.name, note: null };
  return answer(visit, await bringBack(asked, form.to === undefined ? null : numberIn(form.to), parts));
}

/** What is no number is that of no publication. */
function numberIn(text: string | undefined): number {
  return /^\d{1,9}$/.test(text ?? '') ? Number(text) : -1;
}

export const changesRoutes: readonly Route[] = [
  { method: 'get', path: '/changes', ...coordinatorsOfAll, answer: showAsked },
  { method: 'post', path: '/changes/publish', ...coordinatorsOfAll, answer: publish },
  { method: 'post', path: '/changes/undo', ...coordinatorsOfAll, answer: undo },
];
