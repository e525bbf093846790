// What a worker may be told, by where her entries are and whether a nurse knows.

import { describe, expect, it } from 'vitest';
import { replyAfter } from '../../src/conversation/not-recorded.ts';
import { type Reply, say } from '../../src/dialog/reply.ts';

const nurse = '+254700555212';
const urgent: Reply = {
  told: [],
  result: { head: [say('result.urgent')], lines: [say('advice.keep-warm')], foot: [say('result.nurse-told', { nurse })], segments: 2 },
  question: { title: say('result.more'), options: [{ digit: '1', label: say('result.more') }], tail: [] },
  page: 0,
  ends: false,
};
const asks: Reply = {
  told: [say('told.eased', { nurse }), say('told.urgent')],
  question: { title: say('ask.feeding.title'), options: [], tail: [] },
  page: 0,
  ends: false,
};

const keysOf = ({ told, result, question }: Reply): string[] =>
  [...told, ...(result?.head ?? []), ...(result?.foot ?? []), ...(question === undefined ? [] : [question.title])].map(({ key }) => key);

describe('a reply', () => {
  it('is as it was when all is in the register', () => {
    expect(replyAfter(urgent, { where: 'register', isNurseTold: true }, { nurse })).toBe(urgent);
  });

  it.each([
    {
      reply: urgent,
      where: 'kept',
      isNurseTold: true,
      keys: ['system.register-down', 'result.urgent', 'result.nurse-told', 'result.more'],
    },
    { reply: urgent, where: 'kept', isNurseTold: false, keys: ['result.urgent', 'result.nurse-not-told', 'result.more'] },
    { reply: urgent, where: 'nowhere', isNurseTold: true, keys: ['system.not-recorded', 'result.urgent', 'result.nurse-told'] },
    { reply: urgent, where: 'nowhere', isNurseTold: false, keys: ['system.not-recorded', 'result.urgent', 'result.nurse-not-told'] },
    { reply: asks, where: 'kept', isNurseTold: true, keys: ['system.register-down', 'told.eased', 'told.urgent', 'ask.feeding.title'] },
    { reply: asks, where: 'kept', isNurseTold: false, keys: ['result.nurse-not-told', 'told.urgent', 'ask.feeding.title'] },
    { reply: asks, where: 'nowhere', isNurseTold: false, keys: ['system.not-recorded', 'result.nurse-not-told', 'told.urgent'] },
  ] as const)('of what is $where, nurse told $isNurseTold, says $keys', ({ reply, where, isNurseTold, keys }) => {
    const said = replyAfter(reply, { where, isNurseTold }, { nurse });
    expect(keysOf(said)).toEqual(keys);
    expect(said.result?.lines).toEqual(reply.result?.lines);
    expect(said.ends).toBe(where === 'nowhere');
    expect(JSON.stringify(said)).toContain(nurse);
  });
});
