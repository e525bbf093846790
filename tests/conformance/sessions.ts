// What every Sessions store promises, as one suite. Each store brings a harness that makes a store, and lets a lock, a
// session or a remembered reply run out at once. Next: sessions-redis.test.ts, sessions-embedded.test.ts.

import { afterEach, describe, expect, it } from 'vitest';
import type { Held, Sessions, Waiting } from '../../src/conversation/ports.ts';
import { freshPhone } from '../support/fresh-phone.ts';
import { alert, text } from './entries.ts';

export interface SessionsHarness {
  readonly sessions: Sessions;
  now(): number;
  /** Of `alike` the message's id is what messages are alike by. Lets what is named run out, having made sure that it was to run out by itself. */
  runOut(what: 'lock' | 'session' | 'reply' | 'alike', phone: string, messageId: string): Promise<void>;
}

/** The lifetimes a harness must give its store: far apart, so that one running out leaves the longer ones. */
export const testLifetimes = {
  alikeMilliseconds: 6_000,
  lockMilliseconds: 10_000,
  replyMilliseconds: 60_000,
  sessionMilliseconds: 600_000,
};

export async function openHeld({ sessions, now }: SessionsHarness, phone: string, messageId: string): Promise<Held> {
  const opened = await sessions.open(phone, messageId, now());
  if (opened.kind !== 'held') throw new Error(`Expected to hold ${phone}, but it is ${opened.kind}.`);
  return opened.held;
}

export function sessionsConformance(store: string, harness: () => SessionsHarness): void {
  const open = (phone: string, id: string) => harness().sessions.open(phone, id, harness().now());
  const close = (held: Held, id: string, session: string, reply: string) =>
    harness().sessions.close(held, id, session, reply, harness().now());

  describe(`sessions in ${store}`, () => {
    it('has no session for a phone it has never seen', async () => {
      const phone = freshPhone();
      expect(await openHeld(harness(), phone, 'm1')).toMatchObject({ phone, session: null });
    });

    it('loads the session that was closed last', async () => {
      const phone = freshPhone();
      expect(await close(await openHeld(harness(), phone, 'm1'), 'm1', 'first', 'r1')).toBe(true);
      expect(await close(await openHeld(harness(), phone, 'm2'), 'm2', 'second', 'r2')).toBe(true);
      expect((await openHeld(harness(), phone, 'm3')).session).toBe('second');
    });

    it('says that it answers', async () => {
      expect(await harness().sessions.answers()).toBeUndefined();
    });

    it('keeps the phones apart', async () => {
      const [one, other] = [freshPhone(), freshPhone()];
      await close(await openHeld(harness(), one, 'm1'), 'm1', 'of one', 'r1');
      expect((await openHeld(harness(), other, 'm1')).session).toBeNull();
    });

    it('answers a repeated message from memory, and lets the next one in at once', async () => {
      const phone = freshPhone();
      await close(await openHeld(harness(), phone, 'm1'), 'm1', 's1', 'the reply');
      expect(await open(phone, 'm1')).toEqual({ kind: 'repeated', reply: 'the reply' });
      expect(await open(phone, 'm1')).toEqual({ kind: 'repeated', reply: 'the reply' });
      expect((await openHeld(harness(), phone, 'm2')).session).toBe('s1');
    });

    it('answers a repeated message while another one of the phone is being answered', async () => {
      const phone = freshPhone();
      await close(await openHeld(harness(), phone, 'm1'), 'm1', 's1', 'r1');
      const held = await openHeld(harness(), phone, 'm2');
      expect(await open(phone, 'm1')).toEqual({ kind: 'repeated', reply: 'r1' });
      expect(await close(held, 'm2', 's2', 'r2')).toBe(true);
    });

    it('remembers an empty reply as an answer', async () => {
      const phone = freshPhone();
      await close(await openHeld(harness(), phone, 'm1'), 'm1', 's1', '');
      expect(await open(phone, 'm1')).toEqual({ kind: 'repeated', reply: '' });
    });

    it('remembers a message for its own phone only', async () => {
      const [one, other] = [freshPhone(), freshPhone()];
      await close(await openHeld(harness(), one, 'm1'), 'm1', 's1', 'r1');
      expect((await open(other, 'm1')).kind).toBe('held');
    });

    it('is busy for the second of two messages', async () => {
      const phone = freshPhone();
      const [first, second] = await Promise.all([open(phone, 'm1'), open(phone, 'm2')]);
      expect([first?.kind, second?.kind].sort()).toEqual(['busy', 'held']);
    });

    it('is busy for the same message delivered twice at once', async () => {
      const phone = freshPhone();
      const [first, second] = await Promise.all([open(phone, 'm1'), open(phone, 'm1')]);
      expect([first?.kind, second?.kind].sort()).toEqual(['busy', 'held']);
    });

    it('lets exactly one of twenty in', async () => {
      const phone = freshPhone();
      const opened = await Promise.all(Array.from({ length: 20 }, (_, n) => open(phone, `m${n}`)));
      expect(opened.filter(({ kind }) => kind === 'held')).toHaveLength(1);
      expect(opened.filter(({ kind }) => kind === 'busy')).toHaveLength(19);
    });

    it('answers one message once, however many deliveries race through to the end', async () => {
      const phone = freshPhone();
      let turns = 0;
      const deliver = async (): Promise<string> => {
        const opened = await open(phone, 'm1');
        if (opened.kind === 'repeated') return opened.reply;
        if (opened.kind === 'busy') return deliver();
        turns += 1;
        await close(opened.held, 'm1', `after ${turns}`, `reply ${turns}`);
        return `reply ${turns}`;
      };
      expect(new Set(await Promise.all(Array.from({ length: 8 }, deliver)))).toEqual(new Set(['reply 1']));
      expect(turns).toBe(1);
    });

    it('takes its lock back without writing', async () => {
      const phone = freshPhone();
      await harness().sessions.release(await openHeld(harness(), phone, 'm1'));
      expect((await openHeld(harness(), phone, 'm1')).session).toBeNull();
    });

    it('writes nothing for a lock that ran out', async () => {
      const phone = freshPhone();
      const held = await openHeld(harness(), phone, 'm1');
      await harness().runOut('lock', phone, 'm1');
      expect(await close(held, 'm1', 'too late', 'too late')).toBe(false);
      expect(await openHeld(harness(), phone, 'm1')).toMatchObject({ session: null });
    });

    it('writes nothing for a lock that another message has now, and leaves that one its lock', async () => {
      const phone = freshPhone();
      const late = await openHeld(harness(), phone, 'm1');
      await harness().runOut('lock', phone, 'm1');
      const held = await openHeld(harness(), phone, 'm2');
      expect(await close(late, 'm1', 'too late', 'too late')).toBe(false);
      await harness().sessions.release(late);
      expect((await open(phone, 'm3')).kind).toBe('busy');
      expect(await close(held, 'm2', 's2', 'r2')).toBe(true);
    });

    it('closes a lock once', async () => {
      const phone = freshPhone();
      const held = await openHeld(harness(), phone, 'm1');
      expect(await close(held, 'm1', 's1', 'r1')).toBe(true);
      expect(await close(held, 'm2', 's2', 'r2')).toBe(false);
      expect((await openHeld(harness(), phone, 'm2')).session).toBe('s1');
    });

    it('forgets a session that nobody went on with', async () => {
      const phone = freshPhone();
      await close(await openHeld(harness(), phone, 'm1'), 'm1', 's1', 'r1');
      await harness().runOut('session', phone, 'm1');
      expect((await openHeld(harness(), phone, 'm2')).session).toBeNull();
    });

    it('forgets a reply after its time, and keeps the session', async () => {
      const phone = freshPhone();
      await close(await openHeld(harness(), phone, 'm1'), 'm1', 's1', 'r1');
      await harness().runOut('reply', phone, 'm1');
      expect((await openHeld(harness(), phone, 'm1')).session).toBe('s1');
    });

    describe('a message like one that was just answered', () => {
      const like = { by: 'words', milliseconds: testLifetimes.alikeMilliseconds };
      const openAlike = (phone: string, id: string, by = like.by) => harness().sessions.open(phone, id, harness().now(), by);

      async function answered(phone: string): Promise<void> {
        const held = await openHeld(harness(), phone, 'm1');
        await harness().sessions.close(held, 'm1', 's1', 'r1', harness().now(), like);
      }

      it('is answered the same whatever its id, and by that id from then on', async () => {
        const phone = freshPhone();
        await answered(phone);
        expect(await openAlike(phone, 'm2')).toEqual({ kind: 'repeated', reply: 'r1' });
        await harness().runOut('alike', phone, like.by);
        expect(await openAlike(phone, 'm2')).toEqual({ kind: 'repeated', reply: 'r1' });
        expect((await openAlike(phone, 'm3')).kind).toBe('held');
      });

      it('is another one with other words, of another phone, or where nothing says what it is like', async () => {
        const phone = freshPhone();
        await answered(phone);
        expect((await openAlike(freshPhone(), 'm2')).kind).toBe('held');
        const other = await openAlike(phone, 'm2', 'other words');
        expect(other.kind).toBe('held');
        if (other.kind === 'held') await harness().sessions.release(other.held);
        expect((await open(phone, 'm3')).kind).toBe('held');
      });
    });

    it.each([
      ['nothing', ''],
      ['10,000 characters', 'x'.repeat(10_000)],
      ['emoji', '👶🏿👩‍⚕️'],
      ['right to left', 'مولود'],
      ['NUL', 'before\0after'],
      ['a prototype', '{"__proto__":{"polluted":true}}'],
      ['quotes', `'; drop table sessions; -- "\\`],
      ['line ends', 'a\r\nb\n'],
    ])('gives back a session, a reply and a message id of %s as they were', async (_, text) => {
      const phone = freshPhone();
      await close(await openHeld(harness(), phone, `m${text}`), `m${text}`, text, text);
      expect(await open(phone, `m${text}`)).toEqual({ kind: 'repeated', reply: text });
      expect((await openHeld(harness(), phone, 'other')).session).toBe(text);
    });
  });

  describe(`entries kept in ${store}`, () => {
    const { keep, kept, letGo } = {
      keep: (...waiting: Waiting[]) => harness().sessions.keep(waiting),
      kept: (limit = 100) => harness().sessions.kept(limit),
      letGo: (...waiting: Waiting[]) => harness().sessions.letGo(waiting.map(({ key }) => key)),
    };

    afterEach(async () => {
      await letGo(...(await kept()));
    });

    it('are none at first, and keeping or letting go of none is harmless', async () => {
      await keep();
      await letGo();
      expect(await kept()).toEqual([]);
    });

    it('come back as they were, oldest first, and stay until they are let go', async () => {
      const [first, second, third] = [text(), alert(), { ...text({ urgent: true }), gatewayId: 'SM1' }];
      await keep(third, first);
      await keep(second);
      expect(await kept()).toStrictEqual([third, first, second]);
      expect(await kept()).toHaveLength(3);
      await letGo(first);
      expect(await kept()).toStrictEqual([third, second]);
    });

    it('come no more at a time than asked for', async () => {
      const entries = [text(), text(), text()];
      await keep(...entries);
      expect(await kept(2)).toStrictEqual(entries.slice(0, 2));
    });

    it('are kept once and as they were first, in their first place', async () => {
      const [first, second] = [text({ text: 'one' }), text()];
      await keep(first);
      await keep(second, { ...first, text: 'two' });
      expect(await kept()).toStrictEqual([first, second]);
    });

    it('may be kept again once they were let go, behind the others', async () => {
      const [first, second] = [text(), text()];
      await keep(first, second);
      await letGo(first);
      await keep(first);
      expect(await kept()).toStrictEqual([second, first]);
    });

    it('are all there when many processes keep theirs at once', async () => {
      const entries = Array.from({ length: 20 }, () => text());
      await Promise.all(entries.map((entry) => keep(entry)));
      expect((await kept()).map(({ key }) => key).sort()).toEqual(entries.map(({ key }) => key).sort());
    });

    it('that nobody keeps are let go without harm', async () => {
      await expect(letGo(text())).resolves.toBeUndefined();
    });

    it.each(['\0', '\ud83d', '👶🏿', 'x'.repeat(10_000), 'مولود', '{"__proto__":{}}'])(
      'give back the text %j and a key with it',
      async (words) => {
        const entry = text({ key: `key ${words}`, text: words });
        await keep(entry);
        expect(await kept()).toStrictEqual([entry]);
      },
    );
  });
}
