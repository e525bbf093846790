// Entries for the register's tests, each of a baby of its own unless it is said of whom. People and places are invented.

import type { BabyFacts, Entry } from '../../src/conversation/records.ts';
import { freshKey } from '../support/fresh-key.ts';

type Of<Kind extends Entry['kind']> = Extract<Entry, { kind: Kind }>;

export const noon = Date.UTC(2026, 10, 24, 12);
export const HOUR = 3_600_000;
export const worker = '+254700000001';
export const nurse = '+254700000002';
export const otherNurse = '+254700000003';
export const facility = 'lower-hill';
export const nothingKnown: BabyFacts = { sex: null, bornAt: null, gestationDays: null, birthWeightGrams: null, card: null };

/** A baby as every entry of it names it. */
export function ofBaby(changes: Partial<{ baby: string; code: string; worker: string; facility: string }> = {}) {
  const baby = freshKey('baby');
  return { baby, code: baby, worker, facility, ...changes };
}

export function examination(changes: Partial<Of<'examination'>> = {}): Of<'examination'> {
  return {
    kind: 'examination',
    key: freshKey('examination'),
    ...ofBaby(),
    flow: 'first-day-exam',
    urgency: 'routine',
    version: 'v1',
    at: noon,
    facts: nothingKnown,
    body: {},
    ...changes,
  };
}

export function alert(changes: Partial<Of<'alert'>> = {}): Of<'alert'> {
  return { kind: 'alert', key: freshKey('alert'), ...ofBaby(), nurse, at: noon, body: { because: ['not-feeding'] }, ...changes };
}

export function begun(changes: Partial<Of<'begun'>> = {}): Of<'begun'> {
  const key = freshKey('begun');
  return {
    kind: 'begun',
    key,
    examination: `examination:${key}`,
    flow: 'first-day-exam',
    worker,
    facility,
    at: noon,
    lookAt: noon,
    ...changes,
  };
}

export function asked(changes: Pick<Of<'asked'>, 'alert' | 'step' | 'nurse'> & Partial<Of<'asked'>>): Of<'asked'> {
  return { kind: 'asked', key: `asked:${changes.alert}:${changes.step}`, why: 'not-taken', at: noon, ...changes };
}

export function text(changes: Partial<Of<'text'>> = {}): Of<'text'> {
  return { kind: 'text', key: freshKey('text'), to: nurse, text: 'A text', urgent: false, at: noon, ...changes };
}

export function due(changes: Partial<Of<'due'>> = {}): Of<'due'> {
  return { kind: 'due', key: freshKey('due'), work: 'recheck', baby: freshKey('baby'), dueAt: noon, at: noon, body: {}, ...changes };
}

export function referral(changes: Partial<Of<'referral'>> = {}): Of<'referral'> {
  return {
    kind: 'referral',
    key: freshKey('referral'),
    ...ofBaby(),
    urgency: 'urgent',
    receiving: 'upper-hill',
    at: noon,
    body: { why: 'fever' },
    ...changes,
  };
}

export function referralNews(changes: Pick<Of<'referral-news'>, 'referral' | 'news'> & Partial<Of<'referral-news'>>): Of<'referral-news'> {
  return { kind: 'referral-news', key: freshKey('referral-news'), reason: null, by: worker, at: noon, ...changes };
}

export function babyNews(changes: Pick<Of<'baby-news'>, 'baby' | 'news'> & Partial<Of<'baby-news'>>): Of<'baby-news'> {
  return { kind: 'baby-news', key: freshKey('baby-news'), to: null, by: worker, at: noon, ...changes };
}

export function audit(changes: Partial<Of<'audit'>> = {}): Of<'audit'> {
  return { kind: 'audit', key: freshKey('audit'), by: 'roster import', what: 'changed', about: worker, at: noon, body: {}, ...changes };
}
