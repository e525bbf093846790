// Faults to be planted in a copy of the code, each as one edit: the kind that a hurried change could make, and that no turn shows while
// all goes well. Next: planted-faults.ts, which plants them and lives stormy days until one is found.

export interface Planted {
  readonly what: string;
  readonly file: string;
  readonly from: string;
  readonly to: string;
  /** Rare enough to take more days than the tests live; `npm run planted` does. */
  readonly isRare?: boolean;
}

export const plantedFaults: readonly Planted[] = [
  {
    what: 'a reply is not remembered under the id of its message',
    isRare: true,
    file: 'src/conversation/receive.ts',
    from: 'parts.sessions.close(held, incoming.id, session,',
    to: 'parts.sessions.close(held, String(now), session,',
  },
  {
    what: 'the same text under a second id is a second answer',
    file: 'src/conversation/receive.ts',
    from: "return channel === 'sms' && milliseconds > 0 ?",
    to: "return channel === 'ussd' && milliseconds > 0 ?",
  },
  {
    what: 'a turn whose lock ran out is told as if it had been saved',
    isRare: true,
    file: 'src/conversation/receive.ts',
    from: 'if (!closed) return null;',
    to: '',
  },
  {
    what: 'what the register could not take is not kept',
    file: 'src/conversation/record.ts',
    from: 'parts.sessions.keep(waiting), parts.pause',
    to: 'Promise.resolve(), parts.pause',
  },
  {
    what: 'kept entries are let go though they could not be written',
    file: 'src/conversation/write-kept.ts',
    from: '() => writeEach(waiting, tries, parts),',
    to: '() => waiting,',
  },
  {
    what: 'a text is not marked before it goes to the gateway',
    isRare: true,
    file: 'src/conversation/send-due.ts',
    from: 'if (!urgent && !(await register.beginSending(key, now()))) continue;',
    to: '',
  },
  {
    what: 'two nurses can take one alert',
    isRare: true,
    file: 'src/register/alerts.ts',
    from: "where key = $1 and state = $2 and ($3 <> 'taken' or taken_by is null or taken_by = $4) returning",
    to: 'where key = $1 returning',
  },
  {
    what: 'due work is over before what it says is written',
    file: 'src/register/answer-due.ts',
    from: '  await recordEntries(sql, entries);\n',
    to: '',
  },
  {
    what: 'an alert that everybody was asked to take in vain is let be',
    file: 'src/conversation/alerts/due-alert.ts',
    from: "next: { kind: 'again', at: parts.now + minutes * minute }",
    to: "next: { kind: 'done' }",
  },
  {
    what: 'a text that nobody knows the fate of is sent again, whatever it costs',
    file: 'src/register/resending.ts',
    from: "if (sent.kind === 'unknown' && !text.urgent) return",
    to: "if (sent.kind === 'unknown' && text.attempts > 9) return",
  },
  {
    what: 'what falls due for an alert is left out when its examination is recorded',
    file: 'src/conversation/entries.ts',
    from: 'takenLimit(entry, beside.length, at, parts),',
    to: '',
  },
];
