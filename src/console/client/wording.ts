// Keeps the meters of the table of wording up to date while somebody types, and asks before words that were not saved are left.
// What is measured is src/console/wording/meter.ts, as on the server.

import type { Alphabet } from '../../messages/gsm7.ts';
import type { Bounds } from '../../messages/longest.ts';
import { isWarned, type MeterWords, meterOf, sayMeter } from '../wording/meter.ts';

const table = document.querySelector<HTMLElement>('table.wording');
const fields = [...(table?.querySelectorAll('textarea') ?? [])];
const words: MeterWords = { fits: table?.dataset.fits ?? '', over: table?.dataset.over ?? '', outside: table?.dataset.outside ?? '' };

function measure(field: HTMLTextAreaElement): void {
  const said = document.getElementById(`${field.id}:said`)?.querySelector('.meter');
  if (said === null || said === undefined) return;
  const { key = '', alphabet, values = '{}' } = field.dataset;
  const meter = meterOf(key, field.value, alphabet as Alphabet, JSON.parse(values) as Bounds);
  const text = sayMeter(meter, words);
  if (said.textContent !== text) said.textContent = text;
  said.classList.toggle('meter-over', isWarned(meter));
  if (isWarned(meter)) field.setAttribute('aria-invalid', 'true');
  else field.removeAttribute('aria-invalid');
}

for (const field of fields) field.addEventListener('input', () => measure(field));

let isSending = false;
table?.closest('form')?.addEventListener('submit', () => {
  isSending = true;
});
addEventListener('beforeunload', (event) => {
  if (!isSending && fields.some((field) => field.value !== field.defaultValue)) event.preventDefault();
});
