// What the questions and answers about followed babies cost, in every language that is there: each is one text of at most two
// segments (five of a script of 16 bits), longer lists are paged, and every page of a call fits its screen.

import { describe, expect, it } from 'vitest';
import { compose } from '../../src/conversation/compose.ts';
import type { FollowedBaby, Found } from '../../src/dialog/followed.ts';
import type { Turn } from '../../src/dialog/proceed.ts';
import { newSession, type Session } from '../../src/dialog/session.ts';
import { takeTurn } from '../../src/dialog/turn.ts';
import { fitsScreen } from '../../src/messages/screens.ts';
import { measure } from '../../src/messages/segments.ts';
import { book, caller, catalogues, finished, morning } from '../properties/any-dialog.ts';
import { wardAt } from '../properties/any-ward.ts';

const screen = { gsm7: 182, ucs2: 70 };
const mostSegments = { 'gsm-7': 2, 'ucs-2': 5 } as const;
const farthest = 20;
const cautioned: Session = { ...newSession, cautioned: true };
const ward = wardAt(morning, caller.phone, finished);
const languages = [...catalogues.byTag.values()].map(({ tag, alphabet }) => ({ tag, alphabet }));

function turn(session: Session, text: string, babies: readonly FollowedBaby[]): Turn {
  return turnWith(session, text, { kind: 'babies', babies });
}

function turnWith(session: Session, text: string, found: Found): Turn {
  const incoming = { text, caller, dialled: false };
  const { lookUp, ...first } = takeTurn(session, incoming, book, morning);
  return lookUp === undefined ? first : takeTurn(session, { ...incoming, answers: [{ lookUp, found }] }, book, morning);
}

/** Every question and answer about one baby: its code, its menu, and all digits of what they show. */
function* turnsOf(baby: FollowedBaby): Generator<Turn> {
  const opened = turn(cautioned, baby.code, [baby]);
  const menu = turn(cautioned, `${baby.code} she does not feed`, [baby]);
  const shown = [opened, menu, turn(cautioned, `${baby.code} 3`, [baby])];
  for (const one of shown) {
    yield one;
    if (one.session.followed === undefined) continue;
    for (const { digit } of one.reply.question?.options ?? []) {
      const next = turn(one.session, digit, [baby]);
      yield next;
      if (next.session.followed?.of === 'sure' || next.session.followed?.of === 'hand-over') yield turn(next.session, '1', [baby]);
    }
  }
}

const many = Array.from({ length: 3 }, (_, at) => ward.map((baby) => ({ ...baby, id: `${baby.id}-${at}` }))).flat();
const all = [turn(cautioned, 'LIST', []), turn(cautioned, 'LIST', many), ...ward.flatMap((baby) => [...turnsOf(baby)])].filter(
  // Results and questions of examinations have their own limits.
  ({ session, reply }) => session.followed !== undefined || (reply.question === undefined && reply.result === undefined),
);

const halfway = ['BABY 1 0430 39 3100', '0', 'BABY 2 0500 38 2900'].reduce((session, text) => turn(session, text, []).session, cautioned);
/** Each with the menu below it. */
const awayTurns = [cautioned, halfway].flatMap((session) =>
  ['LIST', '7FK is worse'].map((text) => turnWith(session, text, { kind: 'away' })),
);

describe.each(languages)('in $tag', ({ tag, alphabet }) => {
  const voice = { catalogues, language: tag, screen };
  const pagesOf = ({ reply }: Turn, channel: 'sms' | 'ussd'): string[] => {
    const pages: string[] = [];
    for (let page = 0; page < farthest; page += 1) {
      const said = compose({ ...reply, page }, channel, voice);
      pages.push(said.text);
      if (said.shown.hasMore !== true) return pages;
    }
    throw new Error(`A reply of ${farthest} pages does not end: ${pages[0]}`);
  };

  it('every text about followed babies keeps to its segments, and every screen to its size', () => {
    expect(all.length).toBeGreaterThan(60);
    const texts = [...all, ...awayTurns].flatMap((one) => pagesOf(one, 'sms'));
    expect(texts.filter((text) => measure(text).segments > mostSegments[alphabet])).toEqual([]);
    const screens = [...all, ...awayTurns].flatMap((one) => pagesOf(one, 'ussd'));
    expect(screens.filter((text) => !fitsScreen(text, screen))).toEqual([]);
  });

  it('a list of nine names every digit once over its pages', () => {
    const list = turn(cautioned, 'LIST', many);
    for (const channel of ['sms', 'ussd'] as const) {
      const whole = pagesOf(list, channel).join(' ');
      for (const code of many.slice(0, 9).map(({ code: one }) => one)) expect(whole).toContain(code);
    }
  });

  it('what is asked about one baby is one text, and its words are said before the question is', () => {
    const asked = all.filter(({ session }) => session.followed !== undefined && session.followed.of !== 'list');
    const cut = asked.filter((one) => {
      const [text = '', ...more] = pagesOf(one, 'sms');
      const words = one.reply.told.map((each) => compose({ told: [each], page: 0, ends: false }, 'sms', voice).text);
      return more.length > 0 || words.some((each) => !text.includes(each.slice(0, 20)));
    });
    expect(cut.map((one) => pagesOf(one, 'sms'))).toEqual([]);
  });
});
