// The schema of follow-up.yaml: when the phone asks of its own accord, whom, and when it keeps quiet. Read by read-follow-up.ts
// and read-ladder.ts.

import { z } from 'zod';
import { duration, number, oneOrMore, written } from './shapes.ts';

const asked = z.union([
  z.literal('receiving').describe('Whoever is on call where the baby is sent: asked.'),
  z.literal('worker').describe('Who follows the baby: asked.'),
  z.literal('nurse').describe("The nurse on call for the worker's facility: told that nobody confirms it."),
  z.literal('coordinator').describe('The coordinators of the facility and of those above it: told the same.'),
]);

const rung = z.strictObject({
  after: duration.describe('Counted from the moment that the ladder begins at. Later than the step before it.'),
  asks: oneOrMore(asked, 1).describe('Who gets a text.'),
});
const ladder = oneOrMore(rung, 1);

const asksNurse = { properties: { asks: { anyOf: [{ const: 'nurse' }, { contains: { const: 'nurse' } }] } } };
const urgentLadder = z
  .union([z.array(rung).min(1).meta({ contains: asksNurse }), rung])
  .describe('For a baby that must go now. One of the steps must tell the nurse.');
const ladders = z.strictObject({ urgent: urgentLadder, refer: ladder.describe('For a baby that needs a clinician, not tonight.') });

const timeOfDay = written(/^\s*([01]\d|2[0-3]):[0-5]\d\s*$/, 'Write it like "21:00".');

export const followUpSchema = z.strictObject({
  alerts: z
    .strictObject({
      'at-once': number.optional().describe('So many are asked at one time: a whole number above 0. Left out: 1, one after another.'),
      'taken-within': duration.describe('After this the next on call is asked.'),
      'round-pause': duration.describe('After all were asked in vain, all are asked again after this.'),
    })
    .describe('Alerts that nobody takes.'),
  referrals: z
    .strictObject({
      left: ladders.describe('Has the baby left? Counted from when the referral was advised.'),
      travel: duration.describe('How long the way takes where the roster does not say.'),
      arrived: ladders.describe('Has the baby arrived? Counted from when it is expected there.'),
      outcome: ladder.describe('What became of the baby? Counted from its arrival.'),
      'outcome-not-known-after': duration.describe('The referral is then closed as not known.'),
      'refusal-visit': z
        .strictObject({
          every: duration.describe('How often the baby is seen.'),
          times: number.describe('How many visits: a whole number above 0.'),
        })
        .describe('A family that refused: the baby is visited.'),
    })
    .describe('Referrals of which nobody tells.'),
  reminders: z
    .strictObject({
      grace: z
        .strictObject({ recheck: duration.describe('Of a recheck.'), contact: duration.describe('Of a contact.') })
        .describe('A reminder that is not followed is sent once more after this, and counts as missed after the same again.'),
      'contact-when-age-not-known': duration.describe('The next check of a baby whose age nobody knows.'),
      quiet: z
        .strictObject({
          from: timeOfDay.describe('Local time of the facility at which reminders begin to wait, like "21:00".'),
          to: timeOfDay.describe('Local time at which they go out, like "06:00".'),
          'except-within': duration.describe('A recheck that was ordered within this does not wait.'),
        })
        .describe('Quiet hours. Alerts and questions about urgent babies do not wait.'),
    })
    .describe('Reminders of rechecks and contacts.'),
});
