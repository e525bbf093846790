// Looking a baby up by its code.

import { type Answer, root, type Visit } from '../route.ts';
import { Scroll } from '../scroll.tsx';
import { babyName, clockTime, placeName } from './named.ts';

const mostShown = 50;

export async function babiesPage(visit: Visit): Promise<Answer> {
  const { parts, facilities, query, say } = visit;
  const code = (query.code ?? '').trim();
  const babies = await parts.watch.findBabiesBySearch(facilities, code, mostShown);
  const body = (
    <>
      <form class="narrow" method="get" action={`${root}/babies`}>
        <label>
          {say('baby.code')}
          <input name="code" value={code} autocomplete="off" autocapitalize="characters" />
        </label>
        <button type="submit">{say('baby.find')}</button>
      </form>
      {code !== '' && babies.length === 0 ? <p role="status">{say('baby.none')}</p> : null}
      {babies.length === 0 ? null : (
        <Scroll name={say('nav.babies')}>
          <table>
            <thead>
              <tr>
                {['baby', 'place', 'seen', 'urgency', 'open'].map((name) => (
                  <th key={name} scope="col">
                    {say(`baby.col.${name}`)}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {babies.map((baby) => (
                <tr key={baby.id}>
                  <th scope="row">
                    <a href={`${root}/babies/${encodeURIComponent(baby.id)}`}>
                      {baby.code} {babyName(baby, visit)}
                    </a>
                  </th>
                  <td>{placeName(baby.facility, visit)}</td>
                  <td>{clockTime(baby.seenAt, baby.facility, visit)}</td>
                  <td class={baby.urgency ?? ''}>
                    {baby.urgency === null ? say('baby.not-finished') : say(`baby.urgency.${baby.urgency}`)}
                  </td>
                  <td>
                    {baby.hasOpenAlert ? `${say('baby.open-alert')} ` : ''}
                    {baby.hasOpenReferral ? say('baby.open-referral') : ''}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scroll>
      )}
    </>
  );
  return { kind: 'page', title: say('nav.babies'), body };
}
