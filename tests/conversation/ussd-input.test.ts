// What was keyed last in a call, out of all that was keyed: gateways join the answers with `*`, and an answer may hold one itself.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Dial, keyedAlone, keyedLast } from '../../src/conversation/ussd-input.ts';

const dialled = { kind: 'dialled' };
const answer = (text: string) => ({ kind: 'answer', text });
const call = (keyed: string): Dial => ({ id: 'call-1', keyed });

describe('what was keyed last', () => {
  it.each<[string, Dial | undefined, string, object]>([
    ['a first call', undefined, '', dialled],
    ['a first call with a text of its own, as a service code has', undefined, '544*1', dialled],
    ['a new call after another one', { id: 'call-0', keyed: '1*0' }, '', dialled],
    ['a new call that carries text', { id: 'call-0', keyed: '1*0' }, '1*0', dialled],
    ['the first answer', call(''), '1', answer('1')],
    ['the second answer', call('1'), '1*0', answer('0')],
    ['the first answer after a dial that carried text', call('544*1'), '544*1*0', answer('0')],
    ['a temperature with a star for a point, first', call(''), '36*8', answer('36*8')],
    ['a temperature with a star for a point, later', call('1*0'), '1*0*36*8', answer('36*8')],
    ['three values with stars between', call('1'), '1*36*8*44*132', answer('36*8*44*132')],
    ['the same answer again', call('0'), '0*0', answer('0')],
    ['the same text again: the gateway asks for the screen that stands', call('1*0'), '1*0', dialled],
    ['an empty answer', call('1'), '1*', answer('')],
    ['an empty first answer: nothing was keyed', call(''), '', dialled],
    ['a part that the gateway skipped', call('1*0*5'), '1*0*7*3', answer('3')],
    ['a gateway that sends only what was keyed last', call('1*0'), '3', answer('3')],
    ['an answer that begins as the one before', call('1'), '12', answer('12')],
  ])('%s', (_, before, keyed, wanted) => {
    expect(keyedLast(before, 'call-1', keyed)).toEqual(wanted);
  });

  it('is each answer, however many stars they hold', () => {
    const keys = fc.string({ unit: fc.constantFrom(...'0123456789*'), minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(fc.array(keys, { minLength: 1, maxLength: 20 }), (answers) => {
        let keyed = '';
        for (const text of answers) {
          const all = keyed === '' ? text : `${keyed}*${text}`;
          expect(keyedLast(call(keyed), 'call-1', all)).toEqual(answer(text));
          keyed = all;
        }
      }),
    );
  });
});

describe('what was keyed, of a gateway that sends each answer alone', () => {
  it.each<[string, Dial | undefined, boolean, string, object]>([
    ['a dial, whatever it carried', undefined, true, '*384*1#', dialled],
    ['a new dial under the id of the call before', call('0'), true, '0', dialled],
    ['an answer', call('*384#'), false, '1', answer('1')],
    ['the same answer again', call('0'), false, '0', answer('0')],
    ['an answer with stars', call('1'), false, '36*8', answer('36*8')],
    ['an empty answer', call('1'), false, '', answer('')],
    ['an answer in a call that the session does not know', { id: 'call-0', keyed: '1' }, false, '0', dialled],
    ['an answer after a text came in between', undefined, false, '0', dialled],
  ])('%s', (_, before, begins, keyed, wanted) => {
    expect(keyedAlone(before, 'call-1', begins, keyed)).toEqual(wanted);
  });
});
