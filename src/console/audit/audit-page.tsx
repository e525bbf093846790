// The audit trail, newest first: when, who, what, about whom or what, and what it was before and after. Only for who may see all
// facilities, for it tells of all. Next: said-change.tsx, how a line's before and after are told.

import type { VNode } from 'preact';
import type { AuditLine } from '../../conversation/watch.ts';
import { Moment, zoneOf } from '../changes/moment.tsx';
import { type Answer, coordinatorsOfAll, type Route, root, type Visit } from '../route.ts';
import { Scroll } from '../scroll.tsx';
import { SaidChange } from './said-change.tsx';

const linesAPage = 50;

async function show(visit: Visit): Promise<Answer> {
  const { say, parts, query } = visit;
  const title = say('nav.audit');
  const before = query.before === undefined || query.before === '' ? {} : { before: query.before };
  // One more than is shown, to know whether there are older ones.
  const lines = await parts.watch.auditTrail({ ...before, limit: linesAPage + 1 });
  const shown = lines.slice(0, linesAPage);
  const last = shown.at(-1);
  const isFirst = query.before === undefined || query.before === '';
  const body = (
    <>
      {shown.length === 0 ? <p>{say(isFirst ? 'audit.none' : 'audit.none-older')}</p> : <Trail lines={shown} visit={visit} />}
      <nav class="pages" aria-label={say('audit.pages')}>
        {isFirst ? null : <a href={`${root}/audit`}>{say('audit.newest')}</a>}
        {last !== undefined && lines.length > linesAPage ? (
          <a href={`${root}/audit?before=${encodeURIComponent(last.key)}`}>{say('audit.older')}</a>
        ) : null}
      </nav>
    </>
  );
  return { kind: 'page', title, body };
}

function Trail({ lines, visit }: { readonly lines: readonly AuditLine[]; readonly visit: Visit }): VNode {
  const { say, parts } = visit;
  const zone = zoneOf(visit);
  return (
    <Scroll name={say('nav.audit')}>
      <table>
        <caption>{say('audit.caption')}</caption>
        <thead>
          <tr>
            {['when', 'who', 'what', 'about', 'change'].map((column) => (
              <th key={column} scope="col">
                {say(`audit.column-${column}`)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {lines.map(({ key, at, by, what, about, body }) => (
            <tr key={key}>
              <td>
                <Moment at={at} zone={zone} />
              </td>
              <td>{parts.roster.find(by)?.name ?? by}</td>
              <td>{whatWords(what, visit)}</td>
              <td>{parts.roster.find(about)?.name ?? about}</td>
              <td>
                <SaidChange body={body} say={say} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  );
}

/** What has no words of its own is said by its name. */
function whatWords(what: string, { say }: Visit): string {
  const key = `audit.what-${what}`;
  const words = say(key);
  return words === key ? what.replaceAll('-', ' ') : words;
}

export const auditRoutes: readonly Route[] = [{ method: 'get', path: '/audit', ...coordinatorsOfAll, answer: show }];
