// One baby's page: who it is, its course over time drawn against the published growth standards and the limits of the protocol, and
// what was found, sent and done, newest first. Next: baby-plots.ts, what is drawn; src/console/plots/, how.

import type { VNode } from 'preact';
import type { BabyCourse } from '../../conversation/watch.ts';
import { CoursePlot } from '../plots/course-plot.tsx';
import { type Answer, root, type Visit } from '../route.ts';
import { courseDrawn } from './baby-plots.ts';
import { babyName, clockTime, foundWords, personName, placeName } from './named.ts';

export async function babyPage(visit: Visit): Promise<Answer> {
  const { parts, facilities, params, say } = visit;
  const course = await parts.watch.babyCourse(params.id ?? '');
  const places = course === null ? [] : [course.baby.facility, ...course.referrals.flatMap(({ receiving }) => receiving ?? [])];
  // A baby that is sent to a facility is that facility's to see.
  if (course === null || (facilities !== null && !places.some((place) => facilities.includes(place))))
    return { kind: 'page', title: say('baby.unknown'), body: <a href={`${root}/babies`}>{say('nav.babies')}</a>, status: 404 };
  const { baby } = course;
  const body = (
    <>
      <Facts course={course} visit={visit} />
      <h2>{say('baby.course')}</h2>
      <p class="muted">{say('baby.course-caution')}</p>
      <CoursePlot id="course" {...courseDrawn(course, parts.inUse(), visit)} say={say} />
      <h2>{say('baby.examinations')}</h2>
      <Examinations course={course} visit={visit} />
      <h2>{say('baby.events')}</h2>
      <Events course={course} visit={visit} />
    </>
  );
  return { kind: 'page', title: `${baby.code} ${babyName(baby, visit)}`, body };
}

interface Shown {
  readonly course: BabyCourse;
  readonly visit: Visit;
}

function Facts({ course: { baby, gestation }, visit }: Shown): VNode {
  const { say } = visit;
  const facts: readonly (readonly [string, string])[] = [
    ['place', placeName(baby.facility, visit)],
    ['worker', personName(baby.worker, visit)],
    ['born', baby.bornAt === null ? say('baby.not-known') : clockTime(baby.bornAt, baby.facility, visit)],
    [
      'weeks',
      gestation === null
        ? say('baby.not-known')
        : say(gestation.days === undefined ? 'baby.weeks' : 'baby.gestation', { weeks: gestation.weeks, days: gestation.days ?? 0 }),
    ],
    ['birth-weight', baby.birthWeightGrams === null ? say('baby.not-known') : say('baby.grams', { grams: baby.birthWeightGrams })],
    ['status', say(`baby.status.${baby.status}`)],
  ];
  return (
    <dl class="pairs">
      {facts.map(([name, value]) => (
        <div key={name}>
          <dt>{say(`baby.fact.${name}`)}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

function Examinations({ course: { baby, examinations }, visit }: Shown): VNode {
  const { say } = visit;
  const standing = [...examinations].reverse().filter(({ isCorrected }) => !isCorrected);
  if (standing.length === 0) return <p>{say('baby.no-examination')}</p>;
  return (
    <ol class="cards">
      {standing.map((one) => (
        <li key={one.key} class="card">
          <h3>
            <span class={one.urgency}>{say(`baby.urgency.${one.urgency}`)}</span> {clockTime(one.at, one.facility, visit)},{' '}
            {personName(one.worker, visit)}
          </h3>
          <p>{one.found.length === 0 ? say('baby.nothing-found') : foundWords(one.found, visit)}</p>
          {one.missing.length === 0 ? null : <p>{say('baby.missing', { list: one.missing.join(', ') })}</p>}
          {one.version === null ? null : <p class="muted">{say('baby.version', { version: one.version })}</p>}
        </li>
      ))}
      {baby.status === 'erased' ? <li>{say('baby.status.erased')}</li> : null}
    </ol>
  );
}

function Events({ course, visit }: Shown): VNode {
  const { say } = visit;
  const { baby } = course;
  const events = [
    ...course.alerts.flatMap(({ history }) => history.map(({ at, by, to }) => ({ at, by, what: `baby.alert.${to}` }))),
    ...course.referrals.flatMap(({ history }) => history.map(({ at, by, to }) => ({ at, by, what: `care.referral.${to}` }))),
    ...course.news.map(({ at, by, news }) => ({ at, by, what: `baby.news.${news}` })),
  ].sort((a, b) => b.at - a.at);
  const due = course.work.filter(({ state }) => state === 'pending' || state === 'missed').sort((a, b) => a.dueAt - b.dueAt);
  return (
    <ul>
      {due.map((one) => (
        <li key={one.key}>
          {say(`baby.due.${one.state}`, { time: clockTime(one.dueAt, baby.facility, visit), work: say(`baby.work.${one.work}`) })}
        </li>
      ))}
      {events.map(({ at, by, what }) => (
        <li key={`${what}${at}`}>
          {clockTime(at, baby.facility, visit)}: {say(what)} ({personName(by, visit)})
        </li>
      ))}
    </ul>
  );
}
