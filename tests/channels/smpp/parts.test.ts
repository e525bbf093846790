// Long texts come in parts, and a header may say anything.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readDelivered } from '../../../src/channels/smpp/fields.ts';
import { collectParts, type Parts } from '../../../src/channels/smpp/parts.ts';
import { smpp } from '../../../src/channels/smpp/protocol.ts';
import { textFrom } from '../../support/smsc.ts';

const withHeader = (header: readonly number[], text: string) =>
  readDelivered(
    new smpp.PDU('deliver_sm', {
      ...textFrom('+254700000321', ''),
      esm_class: 0x40,
      short_message: Buffer.concat([Buffer.from(header), Buffer.from(text)]),
    }),
  );

const addAll = (parts: Parts, messages: readonly ReturnType<typeof withHeader>[], at = 0) => {
  let last = parts.letGo(0) as unknown;
  for (const message of messages) last = parts.add(message, message.part!, at);
  return last;
};

describe('parts of one text', () => {
  const eight = (number: number, text: string, total = 3, reference = 7) => withHeader([5, 0, 3, reference, total, number], text);
  const whole = { kind: 'whole', bytes: Buffer.from('one two three') };

  test('are joined, whatever order they come in, and however often', () => {
    const [one, two, three] = [eight(1, 'one '), eight(2, 'two '), eight(3, 'three')];
    fc.assert(
      fc.property(fc.shuffledSubarray([one, two, three], { minLength: 3 }), fc.constantFrom(one, two, three), (order, again) => {
        const parts = collectParts();
        expect(addAll(parts, [order[0]!, order[1]!, order[0]!])).toEqual({ kind: 'waiting' });
        expect(parts.add(order[2]!, order[2]!.part!, 1)).toEqual(whole);
        // The last one delivered again begins nothing that ends.
        expect(parts.add(again, again.part!, 2)).toEqual({ kind: 'waiting' });
      }),
    );
  });

  test('are told by a reference of two bytes as well, behind other headers', () => {
    const sixteen = (number: number, text: string) => withHeader([9, 0x24, 1, 0, 0x08, 4, 1, 7, 3, number], text);
    expect(addAll(collectParts(), [sixteen(2, 'two '), sixteen(3, 'three'), sixteen(1, 'one ')])).toEqual(whole);
  });

  test('are told by optional parameters', () => {
    const sar = (number: number, text: string) =>
      readDelivered(
        new smpp.PDU('deliver_sm', {
          ...textFrom('+254700000321', text),
          sar_msg_ref_num: 7,
          sar_total_segments: 3,
          sar_segment_seqnum: number,
        }),
      );
    expect(addAll(collectParts(), [sar(1, 'one '), sar(2, 'two '), sar(3, 'three')])).toEqual(whole);
  });

  test('of another phone or another text are another text', () => {
    const parts = collectParts();
    expect(addAll(parts, [eight(1, 'a', 2, 1), eight(2, 'b', 2, 2)])).toEqual({ kind: 'waiting' });
    const other = { ...eight(2, 'c', 2, 1), from: '+254700000322' };
    expect(parts.add(other, other.part!, 0)).toEqual({ kind: 'waiting' });
  });

  test('that never become whole are let go', () => {
    const parts = collectParts();
    const half = eight(1, 'one ', 2);
    parts.add(half, half.part!, 0);
    expect(parts.letGo(14 * 60_000)).toBe(0);
    expect(parts.letGo(15 * 60_000)).toBe(1);
    const late = eight(2, 'two', 2);
    expect(parts.add(late, late.part!, 15 * 60_000)).toEqual({ kind: 'waiting' });
  });

  test('are bounded: a flood of beginnings pushes the oldest out', () => {
    const parts = collectParts();
    for (let one = 0; one < 1_500; one += 1) {
      const half = { ...eight(1, 'x', 2), from: `+2547${one}` };
      parts.add(half, half.part!, one);
    }
    expect(parts.letGo(1_500)).toBe(500);
    const huge = eight(1, 'x', 13);
    expect(parts.add(huge, huge.part!, 0)).toEqual({ kind: 'refused' });
  });
});

test.each([
  ['no bytes at all', []],
  ['a header longer than the message', [200, 0, 3, 1, 2, 1]],
  ['an element longer than its header', [5, 0, 90, 1, 2, 1]],
  ['a part beyond the total', [5, 0, 3, 1, 2, 3]],
  ['part 0', [5, 0, 3, 1, 2, 0]],
  ['one part of one', [5, 0, 3, 1, 1, 1]],
])('%s is no part of anything', (_name, header) => {
  expect(withHeader(header, '').part).toBeUndefined();
});

test('any bytes are read without a fault', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 200 }), fc.nat(255), fc.nat(255), (bytes, esm, coding) => {
      const fields = { ...textFrom('+254700000321', ''), esm_class: esm, data_coding: coding, short_message: Buffer.from(bytes) };
      expect(readDelivered(new smpp.PDU('deliver_sm', fields)).from).toBe('+254700000321');
    }),
  );
});
