// The phone beside the editor, before anything was sent. It is a script's (src/console/client/editing/phone.ts), so it is hidden where
// none runs. Next: talk.tsx, what it shows.

import type { VNode } from 'preact';
import { root, type Visit } from '../route.ts';
import { Talk } from './talk.tsx';

export function Phone({ visit: { parts, say } }: { readonly visit: Visit }): VNode {
  const { languages } = parts.inUse().book;
  return (
    <section id="phone" class="phone" aria-labelledby="phone-title" data-play={`${root}/edit/play`} hidden>
      <h2 id="phone-title">{say('phone.title')}</h2>
      <div class="phone-choices">
        <label>
          {say('phone.channel')}
          <select id="phone-channel">
            <option value="sms">{say('phone.sms')}</option>
            <option value="ussd">{say('phone.ussd')}</option>
          </select>
        </label>
        <label>
          {say('phone.language')}
          <select id="phone-language">
            {languages.map(({ tag, name }) => (
              <option key={tag} value={tag}>
                {name}
              </option>
            ))}
          </select>
        </label>
      </div>
      <div id="phone-state" role="status" />
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls is reached by keyboard only when it takes the focus */}
      <div id="phone-talk" class="phone-talk" role="log" aria-label={say('phone.talk')} tabIndex={0}>
        <Talk channel="sms" exchanges={[]} say={say} />
      </div>
      <form id="phone-form" class="phone-form">
        <label>
          {say('phone.input')}
          <input id="phone-input" autocomplete="off" autocapitalize="none" spellcheck={false} maxLength={1000} />
        </label>
        <button type="submit">{say('phone.send')}</button>
        <button type="button" id="phone-dial" hidden>
          {say('phone.dial')}
        </button>
        <button type="button" id="phone-again">
          {say('phone.again')}
        </button>
      </form>
    </section>
  );
}
