// Texts that reached nobody, or of which nobody knows, of the last weeks: to whom, what, and who was told.

import { DateTime } from 'luxon';
import type { Answer, Visit } from '../route.ts';
import { Scroll } from '../scroll.tsx';
import { clockTime, personName, placeName } from './named.ts';

const [mostShown, daysShown] = [200, 28];

export async function textsPage(visit: Visit): Promise<Answer> {
  const { parts, facilities, say } = visit;
  const today = DateTime.fromMillis(parts.now(), { zone: 'utc' });
  const days = { from: today.minus({ days: daysShown }).toFormat('yyyy-MM-dd'), until: today.plus({ days: 1 }).toFormat('yyyy-MM-dd') };
  const texts = await parts.watch.failedTexts(facilities, days, mostShown);
  const body =
    texts.length === 0 ? (
      <p>{say('texts.none', { days: daysShown })}</p>
    ) : (
      <Scroll name={say('nav.texts')}>
        <table>
          <caption>{say('texts.caption', { days: daysShown, most: mostShown })}</caption>
          <thead>
            <tr>
              {['when', 'to', 'text', 'state', 'told'].map((name) => (
                <th key={name} scope="col">
                  {say(`texts.col.${name}`)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {texts.map((one) => (
              <tr key={one.key}>
                <td>{clockTime(one.at, one.facility, visit)}</td>
                <td>
                  {personName(one.recipient, visit)}, {placeName(one.facility, visit)}
                </td>
                <td>
                  {one.urgent ? <strong class="urgent">{say('texts.urgent')} </strong> : null}
                  {one.text ?? say('texts.erased')}
                </td>
                <td>
                  {say(`texts.state.${one.state}`)} {one.reason ?? ''}
                </td>
                <td>{one.told.length === 0 ? say('texts.nobody') : one.told.map((phone) => personName(phone, visit)).join(', ')}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
    );
  return { kind: 'page', title: say('nav.texts'), body };
}
