// What a nurse does on the page, as the text that would do the same from her phone: one meaning, one trail, one race to take an
// alert. A form that is sent twice is one message twice. Next: src/conversation/alerts/nurse.ts, which answers it.

import type { InForce } from '../../conversation/book.ts';
import type { Answer, Visit } from '../route.ts';
import { alertsPage } from './alerts-page.tsx';

export async function act(visit: Visit): Promise<Answer> {
  const { account, form, parts, say } = visit;
  const text = textFor(form, parts.inUse());
  if (account.phone === null) return alertsPage(visit, say('care.no-phone'));
  if (text === null) return alertsPage(visit, say('care.no-words'));
  const { text: reply } = await parts.receive({
    channel: 'sms',
    from: account.phone,
    id: `console-${form.message ?? parts.newToken()}`,
    text,
  });
  return alertsPage(visit, reply);
}

/** Null: advice without words, or no act at all. */
export function textFor(form: Visit['form'], { catalogues }: Pick<InForce, 'catalogues'>): string | null {
  const { act: what = '', code = '', worker = '', words = '' } = form;
  const subject = `${code} ${worker.slice(-3)}`;
  const word = (of: 'done' | 'pass'): string | null => {
    const said = catalogues.byTag.get(catalogues.base)?.keywords.get(of)?.[0];
    return said === undefined ? null : `${subject} ${said}`;
  };
  switch (what) {
    case 'take':
      return subject;
    case 'pass':
      return word('pass');
    case 'close':
      return word('done');
    case 'advise':
      return words.trim() === '' ? null : `${subject} ${words.trim()}`;
    default:
      return null;
  }
}
