// The Watch port over a database: joins the files of this folder. No SQL stands here, and none of it writes.
// Next: src/conversation/watch.ts, which says what each answers.

import type { Watch } from '../../conversation/watch.ts';
import type { Database } from '../database.ts';
import { auditTrail } from './audit-trail.ts';
import { babyCourse } from './baby-course.ts';
import { closedLately } from './closed-lately.ts';
import { failedTexts } from './failed-texts.ts';
import { figureSeries } from './figure-series.ts';
import { findBabiesBySearch } from './find-babies.ts';
import { openAlerts } from './open-alerts.ts';
import { openReferrals } from './open-referrals.ts';
import { standing } from './standing.ts';

export function watchIn(database: Database): Watch {
  return {
    openAlerts: (facilities, limit) => openAlerts(database, facilities, limit),
    openReferrals: (facilities, limit) => openReferrals(database, facilities, limit),
    closedLately: (facilities, since, limit) => closedLately(database, facilities, since, limit),
    babyCourse: (id) => babyCourse(database, id),
    findBabiesBySearch: (facilities, text, limit) => findBabiesBySearch(database, facilities, text, limit),
    failedTexts: (facilities, days, limit) => failedTexts(database, facilities, days, limit),
    auditTrail: (page) => auditTrail(database, page),
    figureSeries: (facilities, days, now) => figureSeries(database, facilities, days, now),
    standing: (now) => standing(database, now),
  };
}
