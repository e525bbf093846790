// The first page: alerts and referrals that are open, as they stand, and who is on call now. What a nurse does here is sent through
// the same door as her texts, so that it means the same. Next: act.ts; named.ts.

import type { VNode } from 'preact';
import type { WatchedAlert, WatchedReferral } from '../../conversation/watch.ts';
import { type Answer, root, type Visit } from '../route.ts';
import { Scroll } from '../scroll.tsx';
import { ago, babyName, clockTime, foundWords, personName, placeName } from './named.ts';

const mostShown = 100;

interface Standing {
  readonly alerts: readonly WatchedAlert[];
  readonly referrals: readonly WatchedReferral[];
}

export async function alertsPage(visit: Visit, said?: string): Promise<Answer> {
  const { say } = visit;
  const body = (
    <>
      {said === undefined ? null : (
        <p class="done" role="status">
          {say('care.answered', { text: said })}
        </p>
      )}
      <div data-live={`${root}/alerts/now`} data-offline={say('page.offline', { minutes: '#' })} data-new={say('care.new')}>
        <Now visit={visit} standing={await standingNow(visit)} />
      </div>
    </>
  );
  return { kind: 'page', title: say('nav.alerts'), body, scripts: ['live'] };
}

/** The part of the page that is put in place anew every few seconds. */
export async function alertsNow(visit: Visit): Promise<Answer> {
  return { kind: 'part', body: <Now visit={visit} standing={await standingNow(visit)} /> };
}

async function standingNow({ parts, facilities }: Visit): Promise<Standing> {
  const [alerts, referrals] = await Promise.all([
    parts.watch.openAlerts(facilities, mostShown),
    parts.watch.openReferrals(facilities, mostShown),
  ]);
  return { alerts, referrals };
}

function Now({ visit, standing: { alerts, referrals } }: { readonly visit: Visit; readonly standing: Standing }): VNode {
  const { say } = visit;
  return (
    <>
      <h2>{say('care.open-alerts', { count: alerts.length })}</h2>
      {alerts.length === 0 ? <p>{say('care.no-alerts')}</p> : null}
      <ul class="cards">
        {alerts.map((alert) => (
          <li key={alert.key} id={alert.key} class="card" data-announce="">
            <Alert alert={alert} visit={visit} />
          </li>
        ))}
      </ul>
      <h2>{say('care.open-referrals', { count: referrals.length })}</h2>
      {referrals.length === 0 ? <p>{say('care.no-referrals')}</p> : <Referrals referrals={referrals} visit={visit} />}
      <h2>{say('care.on-call')}</h2>
      <OnCall visit={visit} />
    </>
  );
}

function Alert({ alert, visit }: { readonly alert: WatchedAlert; readonly visit: Visit }): VNode {
  const { say, account } = visit;
  const { code, baby, facility, worker, state, takenBy, asked } = alert;
  const isHers = takenBy !== null && takenBy === account.phone;
  const last = asked.findLast(({ why }) => why !== 'beside');
  return (
    <>
      <h3>
        <span class={state === 'open' ? 'urgent' : ''}>{say(`care.state.${state}`)}</span> {code}{' '}
        <a href={`${root}/babies/${encodeURIComponent(baby.id)}`}>{babyName(baby, visit)}</a>, {placeName(facility, visit)}
      </h3>
      <p>
        <strong>{foundWords(alert.found, visit)}</strong>
      </p>
      <p>
        {say('care.raised', { time: clockTime(alert.at, facility, visit), ago: ago(alert.at, visit) })}{' '}
        {takenBy === null
          ? say('care.asked', { name: personName(last?.nurse ?? null, visit), count: asked.length })
          : say('care.taken-by', { name: personName(takenBy, visit), phone: takenBy })}
      </p>
      <p>
        {say('care.worker', { name: personName(worker, visit) })} <a href={`tel:${worker}`}>{worker}</a>
      </p>
      {account.phone === null ? (
        <p class="muted">{say('care.no-phone')}</p>
      ) : (
        <form class="actions" method="post" action={`${root}/alerts/act`}>
          <input type="hidden" name="token" value={visit.formToken} />
          <input type="hidden" name="message" value={visit.parts.newToken()} />
          <input type="hidden" name="code" value={code} />
          <input type="hidden" name="worker" value={worker} />
          {takenBy === null ? (
            <button class="main" name="act" value="take" type="submit">
              {say('care.take', { code })}
            </button>
          ) : null}
          {takenBy === null || isHers ? (
            <>
              <label class="advice">
                {say('care.advice', { code })}
                <input name="words" maxLength={300} autocomplete="off" />
              </label>
              <button name="act" value="advise" type="submit">
                {say('care.advise')}
              </button>
              <button name="act" value="pass" type="submit">
                {say('care.pass')}
              </button>
              <button name="act" value="close" type="submit">
                {say('care.close')}
              </button>
            </>
          ) : null}
        </form>
      )}
    </>
  );
}

function Referrals({ referrals, visit }: { readonly referrals: readonly WatchedReferral[]; readonly visit: Visit }): VNode {
  const { say } = visit;
  return (
    <Scroll name={say('care.referrals-table')}>
      <table>
        <thead>
          <tr>
            {['baby', 'why', 'way', 'state', 'since'].map((name) => (
              <th key={name} scope="col">
                {say(`care.col.${name}`)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {referrals.map((one) => (
            <tr key={one.key}>
              <th scope="row">
                {one.code} <a href={`${root}/babies/${encodeURIComponent(one.baby.id)}`}>{babyName(one.baby, visit)}</a>
              </th>
              <td>
                <span class={one.urgency}>{say(`care.urgency.${one.urgency}`)}</span> {foundWords(one.found, visit)}
              </td>
              <td>{say('care.way', { from: placeName(one.from, visit), to: placeName(one.receiving, visit) })}</td>
              <td>{say(`care.referral.${one.state}`)}</td>
              <td>{ago(one.arrivedAt ?? one.leftAt ?? one.at, visit)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  );
}

function OnCall({ visit }: { readonly visit: Visit }): VNode {
  const { parts, say, facilities } = visit;
  const places = parts.roster.data().facilities.filter(({ id }) => facilities === null || facilities.includes(id));
  return (
    <dl class="pairs">
      {places.map(({ id, name, nurse }) => {
        const people = parts.roster.onCall(id, parts.now());
        return (
          <div key={id}>
            <dt>{name}</dt>
            <dd>
              {people.length === 0 ? say('care.nobody') : null}
              {people.length === 0 ? <a href={`tel:${nurse}`}>{nurse}</a> : null}
              {people.map((person) => (
                <span key={person.phone} class="person">
                  {person.name} <a href={`tel:${person.phone}`}>{person.phone}</a>
                </span>
              ))}
            </dd>
          </div>
        );
      })}
    </dl>
  );
}
