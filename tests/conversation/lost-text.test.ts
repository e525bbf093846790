// Urgent texts that nobody could deliver: who hears of them, and how much of them fits, in every language of the coordinators.

import { describe, expect, it } from 'vitest';
import { tellOfLost } from '../../src/conversation/lost-text.ts';
import type { RosterData } from '../../src/conversation/roster.ts';
import { rosterOf } from '../../src/conversation/roster.ts';
import { measure } from '../../src/messages/segments.ts';
import { coordinator, doorNumber, morning, nurse, parts, stranger, worker } from './ward.ts';

const lost = { key: 'nurse:alert:b1:0', to: nurse.phone, text: '7FK URGENT girl 5 h, Mwangaza HC 0930: fit.', baby: 'b1' };

describe('a lost urgent text', () => {
  it('is told to the coordinator over the one who was to get it, as urgent, with what it said', () => {
    expect(tellOfLost(lost, morning, parts)).toEqual([
      {
        ...{
          kind: 'text',
          key: `lost:nurse:alert:b1:0:${coordinator.phone}`,
          to: coordinator.phone,
          urgent: true,
          at: morning,
          baby: 'b1',
        },
        text: `NOT DELIVERED to ${nurse.name} ${nurse.phone}, please ring. The text was: ${lost.text}`,
      },
    ]);
  });

  it('to a worker is told as well: she waits for it', () => {
    expect(tellOfLost({ ...lost, to: worker.phone }, morning, parts).map(({ to }) => to)).toEqual([coordinator.phone]);
  });

  it.each([
    ['the coordinator herself, who has none above her', coordinator.phone],
    ['a nurse whose facility has no coordinator', stranger.phone],
    ['the number of a facility without one', doorNumber],
    ['a number that left the roster', '+254700555999'],
  ])('of %s is told to nobody', (_, to) => {
    expect(tellOfLost({ ...lost, to }, morning, parts)).toEqual([]);
  });

  it('to the number of a facility is told to the coordinator of that facility', () => {
    expect(tellOfLost({ ...lost, to: '+254700555220' }, morning, parts).map(({ to }) => to)).toEqual([coordinator.phone]);
  });

  it.each(['en', 'fr', 'sw', 'hi'])('that is long is told from its beginning, within the limit, in %s', (language) => {
    const data: RosterData = {
      ...{ shifts: [], leave: [], people: [nurse, { ...coordinator, language, facility: nurse.facility }] },
      facilities: [{ id: nurse.facility, name: '', nurse: nurse.phone, zone: 'UTC', above: null, refersTo: null, travelMinutes: null }],
    };
    const text = Array.from({ length: 90 }, (_, n) => `word${n}`).join(' ');
    const [told] = tellOfLost({ ...lost, text }, morning, { ...parts, roster: rosterOf(data) });
    expect(told?.text).toMatch(/: word0 word1 .* word\d+ \.\.$/);
    const { alphabet, segments } = measure(told?.text ?? '');
    expect(segments).toBe(alphabet === 'gsm-7' ? 2 : 4);
  });
});
