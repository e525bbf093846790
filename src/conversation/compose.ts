// Puts a reply into words and fits it to its channel: one text of few segments, or one screen of a call. What must be read
// first stands first; what does not fit follows on the next page, asked for with 1 (a result) or 99 (a long list).

import type { Option, Question, Reply, Result, Say } from '../dialog/reply.ts';
import type { Session } from '../dialog/session.ts';
import { type Catalogues, findCatalogue, say } from '../messages/catalogue.ts';
import { toPlain } from '../messages/gsm7.ts';
import type { Dealt } from '../messages/pages.ts';
import { fitsScreen, packSegments, paginate, type ScreenLimit } from '../messages/screens.ts';
import { measure } from '../messages/segments.ts';
import type { Channel, Outgoing } from './ports.ts';

export interface Voice {
  readonly catalogues: Catalogues;
  /** BCP-47. */
  readonly language: string;
  readonly screen: ScreenLimit;
}

/** Segments that a page may take. A script of 16 bits holds less than half as much, and gets more of them. */
const segmentsFor = { 'gsm-7': { 1: 1, 2: 2 }, 'ucs-2': { 1: 3, 2: 5 } } as const;

/** What goes out, and what the session remembers of it. */
export interface Composed extends Outgoing {
  readonly shown: Pick<Session, 'hasMore' | 'isQuestionAhead'>;
}

export function compose(reply: Reply, channel: Channel, voice: Voice): Composed {
  const { text, isLast, asks, isQuestionAhead } = channel === 'sms' ? composeText(reply, voice) : composeScreen(reply, voice);
  const shown = { ...(isLast ? {} : { hasMore: true }), ...(isQuestionAhead === true ? { isQuestionAhead } : {}) };
  return { text, ends: reply.ends && isLast && asks !== true, shown };
}

/** The session once this was shown. */
export function afterShown(session: Session, shown: Composed['shown']): Session {
  const { hasMore: _hadMore, isQuestionAhead: _wasAhead, ...rest } = session;
  return { ...rest, ...shown };
}

const cautionKey = 'caution';
const doseKeys = 'dose.';
const refusedKeys = 'refused.';
/** Said where there is room, and never worth a segment of its own. */
const reassurance = 'told.all-normal';

interface Page {
  readonly text: string;
  readonly isLast: boolean;
  /** There is something to choose yet: a call does not end here. */
  readonly asks?: boolean;
  /** Nothing of what is asked was reached yet. */
  readonly isQuestionAhead?: boolean;
}

function composeText(reply: Reply, voice: Voice): Page {
  const speak = speaker(voice);
  const limits = segmentsFor[alphabetOf(voice)];
  if (reply.result !== undefined)
    return pageOf(resultTexts(reply.result, reply.question, reply.told, speak, limits[reply.result.segments]), reply.page);
  const asked = reply.question === undefined ? [] : questionLines(reply.question, speak);
  const question = asked.join(' ');
  if (question === '')
    return pageOf(
      textsOf(
        packSegments(
          reply.told.map((one) => sentence(speak(one))),
          limits[2],
          ' ',
        ),
      ),
      reply.page,
    );
  // The cautions of the first message are said once, and doses are never cut short: both may take one segment more.
  const first = reply.told.some(({ key }) => key === cautionKey || key.startsWith(doseKeys)) ? 1 : 0;
  const most = limits[2] + first;
  const told = reply.told.map((one) => sentence(speak(one)));
  // What was not understood is never left out before what was.
  const refused = told.filter((_, at) => reply.told[at]?.key.startsWith(refusedKeys));
  const paged = (): Page => askingPage(told, asked, reply.page, (all) => packSegments(all, limits[2], ' ', speak({ key: 'pager.next' })));
  if (measure(question).segments > limits[2]) return paged();
  if (reply.told.every(({ key }) => key === reassurance)) {
    const text = [...told, question].join(' ');
    return { text: measure(text).segments > measure(question).segments ? question : text, isLast: true };
  }
  for (let kept = told.length; kept >= 0; kept -= 1) {
    const said = told.filter((one, at) => at < kept || refused.includes(one));
    const text = [...said, question].join(' ');
    if (said.length > 0 && measure(text).segments <= most) return { text, isLast: true };
  }
  // A long list, such as a menu with several babies: what was wrong stands before it, and its end on the next page.
  return told.length > 0 && measure(question).segments === limits[2] ? paged() : { text: question, isLast: true };
}

function questionLines(question: Question, speak: (one: Say) => string): string[] {
  return [
    sentence(speak(question.title)),
    ...question.options.map((option) => optionText(option, speak)),
    ...question.tail.map(speak),
  ].filter((part) => part !== '');
}

/** The first page holds the head, what follows from it at once, as many lines as fit, and the choices. */
function resultTexts(
  result: Result,
  question: Question | undefined,
  told: readonly Say[],
  speak: (one: Say) => string,
  most: number,
): string[] {
  const head = [...told, ...result.head, ...result.foot].map((one) => sentence(speak(one)));
  const lines = result.lines.map((one) => sentence(speak(one)));
  const [more, ...choices] = question?.options ?? [];
  const chosen = choices.map((option) => optionText(option, speak));
  const note = more === undefined ? '' : optionText(more, speak);
  for (let kept = lines.length; kept >= 0; kept -= 1) {
    const rest = lines.slice(kept);
    const page = [...head, ...lines.slice(0, kept), ...(rest.length === 0 ? [] : [note]), ...chosen]
      .filter((part) => part !== '')
      .join(' ');
    if (measure(page).segments <= most) return [page, ...textsOf(packSegments(rest, most, ' ', note))];
  }
  return textsOf(packSegments([...head, ...chosen, ...lines], most, ' ', note));
}

function composeScreen(reply: Reply, voice: Voice): Page {
  const speak = speaker(voice);
  const { question, result } = reply;
  const told = reply.told.map((one) => sentence(speak(one))).filter((line) => line !== '');
  if (result !== undefined) {
    const [more, ...choices] = question?.options ?? [];
    const chosen = choices.map((option) => optionText(option, speak));
    const lines = [
      ...told,
      ...[...result.head, ...result.foot].map((one) => sentence(speak(one))),
      ...chosen,
      ...result.lines.map((one) => sentence(speak(one))),
    ];
    const pager = { more: more === undefined ? '' : optionText(more, speak) };
    const pages = textsOf(paginate(lines, voice.screen, pager));
    // The choices stand early, where they are seen, and once more at the end, where they are wanted.
    const page = pageOf(pages.length > 1 ? textsOf(paginate([...lines, ...chosen], voice.screen, pager)) : pages, reply.page);
    return { ...page, asks: choices.length > 0 };
  }
  const asked = question === undefined ? [] : questionLines(question, speak);
  const lines = [...told, ...asked];
  const back = speak({ key: 'pager.back' });
  const whole = [...lines, back].join('\n');
  if (question !== undefined && !reply.ends && fitsScreen(whole, voice.screen)) return { text: whole, isLast: true };
  return askingPage(told, asked, reply.page, (all) => paginate(all, voice.screen, { more: speak({ key: 'pager.next' }) }));
}

function optionText(option: Option, speak: (one: Say) => string): string {
  return `${speak({ key: 'verbatim', values: { text: Number(option.digit) } })} ${speak(option.label)}`.trim();
}

function speaker({ catalogues, language }: Voice): (one: Say) => string {
  return ({ key, values }) => toPlain(say(catalogues, language, key, values)).trim();
}

/** A sentence begins with a capital, whatever sign or value it opens with, and ends in one mark. */
function sentence(text: string): string {
  return text.replace(/^\p{Ll}/u, (letter) => letter.toUpperCase()).replace(/\?\.$/, '?');
}

function alphabetOf({ catalogues, language }: Voice): 'gsm-7' | 'ucs-2' {
  return findCatalogue(catalogues, language)?.alphabet ?? 'gsm-7';
}

/** A page of what is said and then asked. A question is reached with its title; one with options, with the first of them. */
function askingPage(told: readonly string[], asked: readonly string[], wanted: number, deal: (pieces: string[]) => Dealt[]): Page {
  const pages = deal([...told, ...asked]);
  const page = pageOf(textsOf(pages), wanted);
  const begun = pages[Math.min(wanted, pages.length - 1)]?.begun ?? 0;
  return { ...page, isQuestionAhead: asked.length > 0 && !page.isLast && begun < told.length + Math.min(asked.length, 2) };
}

function textsOf(pages: readonly Dealt[]): string[] {
  return pages.map(({ text }) => text);
}

/** A page past the last shows the last. */
function pageOf(pages: readonly string[], wanted: number): Page {
  const at = Math.min(wanted, pages.length - 1);
  return { text: pages[at] ?? '', isLast: at >= pages.length - 1 };
}
