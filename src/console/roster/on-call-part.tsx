// Who is on call now and in the next seven days, a table a facility, by the clock on its wall. Where nobody of the facility is, it
// says who is asked instead, from the facilities above. Next: on-call-week.ts.

import { DateTime } from 'luxon';
import type { VNode } from 'preact';
import type { Facility, Roster } from '../../conversation/ports.ts';
import { type RosterData, rosterOf } from '../../conversation/roster.ts';
import { Scroll } from '../scroll.tsx';
import type { Say } from '../words.ts';
import { type Stretch, stretchesOf } from './on-call-week.ts';

const week = 7 * 24 * 60 * 60_000;

interface Given {
  readonly data: RosterData;
  readonly now: number;
  readonly say: Say;
}

export function OnCallPart({ data, now, say }: Given): VNode {
  const roster = rosterOf(data);
  return (
    <>
      {data.facilities.map((facility) => {
        const stretches = stretchesOf(facility, data, now, now + week);
        return (
          <details key={facility.id} class="on-call">
            <summary>
              <strong>{facility.name}</strong> {say('roster.now', { who: whoIn(stretches[0], facility, roster, say) })}
            </summary>
            <Scroll name={say('roster.week-of', { facility: facility.name })}>
              <table>
                <caption>{say('roster.week', { facility: facility.name, zone: facility.zone })}</caption>
                <thead>
                  <tr>
                    <th scope="col">{say('roster.from')}</th>
                    <th scope="col">{say('roster.until')}</th>
                    <th scope="col">{say('roster.who')}</th>
                  </tr>
                </thead>
                <tbody>
                  {stretches.map((stretch, at) => (
                    <tr key={stretch.from}>
                      <td>{at === 0 ? say('roster.from-now') : clock(stretch.from, facility)}</td>
                      <td>{clock(stretch.until, facility)}</td>
                      <td>{whoIn(stretch, facility, roster, say)}</td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </Scroll>
          </details>
        );
      })}
    </>
  );
}

function clock(at: number, { zone }: Facility): string {
  return DateTime.fromMillis(at, { zone, locale: 'en' }).toFormat('ccc d LLL HH:mm');
}

/** Names in the order in which they are asked. */
function whoIn(stretch: Stretch | undefined, facility: Facility, roster: Roster, say: Say): string {
  const own = stretch?.phones ?? [];
  const named = (phones: readonly string[]): string => phones.map((phone) => roster.find(phone)?.name ?? phone).join(', ');
  if (own.length > 0) return named(own);
  const above = roster.onCall(facility.id, stretch?.from ?? 0).map(({ phone }) => phone);
  return above.length === 0 ? say('roster.nobody', { phone: facility.nurse }) : say('roster.nobody-here', { who: named(above) });
}
