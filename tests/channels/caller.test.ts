// Numbers in one form, and how they look in a log. Expected numbers: common practice of dialling, no source.

import { expect, test } from 'vitest';
import { toE164 } from '../../src/channels/caller.ts';
import { maskPhone } from '../../src/channels/mask.ts';

test.each([
  ['+254700000321', undefined, '+254700000321'],
  ['00254700000321', undefined, '+254700000321'],
  ['254700000321', undefined, '+254700000321'],
  // An unescaped plus in a form is a space.
  [' 254700000321', undefined, '+254700000321'],
  [' 254700000321', 'KE', '+254700000321'],
  ['+254 700 000-321', undefined, '+254700000321'],
  ['0700000321', 'KE', '+254700000321'],
  ['700000321', 'KE', '+254700000321'],
  // Across the border, on the same gateway.
  ['256772000321', 'KE', '+256772000321'],
  ['+256772000321', 'KE', '+256772000321'],
  ['0700000321', undefined, undefined],
  ['000254700000321', undefined, undefined],
  ['21222', undefined, undefined],
  ['21222', 'KE', undefined],
  ['PIPIT', 'KE', undefined],
  ['', 'KE', undefined],
  ['+', undefined, undefined],
  ['call +254700000321', undefined, undefined],
  ['+254700000321 and +254700000322', undefined, undefined],
  ['7'.repeat(10_000), 'KE', undefined],
] as const)('"%s" in %s is %s', (raw, country, number) => {
  expect(toE164(raw, country)).toBe(number);
});

test.each([
  ['+254700000321', '…321'],
  ['0700 000 321', '…321'],
  ['21222', '…'],
  ['PIPIT', '…'],
  ['', '…'],
])('"%s" is logged as %s', (phone, masked) => {
  expect(maskPhone(phone)).toBe(masked);
});
