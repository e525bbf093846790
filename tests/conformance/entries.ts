// Entries for the register's tests. People and places are invented.

import type { Entry } from '../../src/conversation/ports.ts';
import { freshKey } from '../support/fresh-key.ts';

type Of<Kind extends Entry['kind']> = Extract<Entry, { kind: Kind }>;

export const noon = Date.UTC(2026, 10, 24, 12);

export function examination(changes: Partial<Of<'examination'>> = {}): Of<'examination'> {
  const key = freshKey('examination');
  return { kind: 'examination', key, worker: '+254700000001', facility: 'lower-hill', code: key, at: noon, body: {}, ...changes };
}

export function alert(changes: Partial<Of<'alert'>> = {}): Of<'alert'> {
  const key = freshKey('alert');
  return {
    kind: 'alert',
    key,
    worker: '+254700000001',
    facility: 'lower-hill',
    nurse: '+254700000002',
    code: key,
    at: noon,
    body: { because: ['not-feeding'] },
    ...changes,
  };
}

export function text(changes: Partial<Of<'text'>> = {}): Of<'text'> {
  return { kind: 'text', key: freshKey('text'), to: '+254700000002', text: 'A text', urgent: false, at: noon, ...changes };
}
