// The pages about babies: alerts and referrals as they stand, and what a nurse does about them.

import { coordinators, everyone, type Route } from '../route.ts';
import { act } from './act.ts';
import { alertsNow, alertsPage } from './alerts-page.tsx';
import { babiesPage } from './babies-page.tsx';
import { babyPage } from './baby-page.tsx';
import { figuresPage } from './figures-page.tsx';
import { textsPage } from './texts-page.tsx';

export const careRoutes: readonly Route[] = [
  { method: 'get', path: '/', roles: everyone, answer: (visit) => alertsPage(visit) },
  { method: 'get', path: '/alerts/now', roles: everyone, answer: alertsNow },
  { method: 'post', path: '/alerts/act', roles: everyone, answer: act },
  { method: 'get', path: '/babies', roles: everyone, answer: babiesPage },
  { method: 'get', path: '/babies/:id', roles: everyone, answer: babyPage },
  { method: 'get', path: '/figures', roles: coordinators, answer: figuresPage },
  { method: 'get', path: '/texts', roles: coordinators, answer: textsPage },
];
