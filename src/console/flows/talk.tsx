// A conversation as the phone beside the editor shows it: what was sent, what came back, how much of the room that takes, and what all
// of it costs so far. Next: phone.tsx, the phone around it.

import type { VNode } from 'preact';
import type { Exchange } from '../ports.ts';
import type { Say } from '../words.ts';

interface Given {
  readonly channel: 'sms' | 'ussd';
  readonly exchanges: readonly Exchange[];
  readonly say: Say;
}

export function Talk({ channel, exchanges, say }: Given): VNode {
  if (exchanges.length === 0) return <p class="muted">{say(`phone.begin-${channel}`)}</p>;
  const segments = exchanges.reduce((sum, one) => sum + one.segments, 0);
  return (
    <>
      <ol class="talk">
        {exchanges.map((one, at) => (
          <li key={at}>
            <p class="talk-sent">
              <span class="talk-who">{say('phone.sent')} </span>
              {one.sent === '' ? <em>{say(channel === 'ussd' ? 'phone.dialled' : 'phone.empty')}</em> : one.sent}
            </p>
            <p class="talk-reply">
              <span class="talk-who">{say('phone.reply')} </span>
              {one.reply}
            </p>
            <p class="talk-size muted">
              {say(`phone.size-${channel}`, { units: one.units, room: one.room, segments: one.segments })}
              {channel === 'ussd' && one.ends ? ` · ${say('phone.ends')}` : ''}
            </p>
          </li>
        ))}
      </ol>
      <p class="talk-cost">{say(`phone.cost-${channel}`, { sent: exchanges.length, segments })}</p>
    </>
  );
}
