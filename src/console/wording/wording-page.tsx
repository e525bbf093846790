// The page of the wording: what to show, the table, its pages, and what became of a save. Works as forms and links; the script only
// keeps the meters up to date while somebody types. Next: table.tsx; wording-routes.ts.

import type { VNode } from 'preact';
import { root, type Visit } from '../route.ts';
import { type Choice, shows, writeChoice } from './choice.ts';
import type { Wording } from './read-wording.ts';
import type { Rows } from './rows.ts';
import type { Unsaved } from './save-words.ts';
import { WordingTable } from './table.tsx';

interface Given extends Pick<Visit, 'say' | 'formToken'> {
  readonly wording: Wording;
  readonly areas: readonly string[];
  readonly choice: Choice;
  readonly shown: Rows;
  /** How many were saved; null: nothing was tried. */
  readonly saved: number | null;
  readonly unsaved: ReadonlyMap<string, Unsaved>;
}

export function WordingPage(given: Given): VNode {
  const { say, wording, choice, shown, saved, unsaved, formToken } = given;
  const address = (page: number): string => `${root}/wording?${writeChoice(choice, page)}`;
  return (
    <>
      {saved === null ? null : (
        <div role="status">
          {saved > 0 ? (
            <p class="done">
              {say('wording.saved', { count: saved })} <a href={`${root}/changes`}>{say('wording.to-changes')}</a>
            </p>
          ) : null}
          {unsaved.size > 0 ? <p class="problem">{say('wording.not-saved', { count: unsaved.size })}</p> : null}
          {saved === 0 && unsaved.size === 0 ? <p>{say('wording.nothing')}</p> : null}
        </div>
      )}
      {wording.unreadable.map((file) => (
        <p key={file} class="problem">
          {say('wording.unreadable', { file })}{' '}
          <a href={`${root}/edit?file=${encodeURIComponent(file)}`}>{say('wording.open-file', { file })}</a>
        </p>
      ))}
      <Chooser {...given} />
      <p>{say('wording.count', { count: shown.count })}</p>
      {shown.rows.length === 0 ? null : (
        <form method="post" action={address(shown.page)}>
          <input type="hidden" name="token" value={formToken} />
          <WordingTable rows={shown.rows} say={say} unsaved={unsaved} />
          <p class="wording-save">
            <button type="submit" class="main">
              {say('wording.save')}
            </button>{' '}
            <span class="muted">{say('wording.save-what')}</span>
          </p>
        </form>
      )}
      {shown.pages < 2 ? null : (
        <nav class="pages" aria-label={say('wording.pages')}>
          {shown.page > 1 ? <a href={address(shown.page - 1)}>{say('wording.page-before')}</a> : null}
          <span>{say('wording.page', { page: shown.page, pages: shown.pages })}</span>
          {shown.page < shown.pages ? <a href={address(shown.page + 1)}>{say('wording.page-after')}</a> : null}
        </nav>
      )}
    </>
  );
}

function Chooser({ say, wording, areas, choice }: Pick<Given, 'say' | 'wording' | 'areas' | 'choice'>): VNode {
  const [base, ...others] = wording.languages;
  return (
    <form class="choose" method="get" action={`${root}/wording`}>
      <fieldset>
        <legend>{say('wording.beside', { language: base?.name ?? '' })}</legend>
        {others.map((language) => (
          <label key={language.tag}>
            <input type="checkbox" name={`lang-${language.tag}`} checked={choice.languages.includes(language)} />{' '}
            <span lang={language.tag}>{language.name}</span>
          </label>
        ))}
      </fieldset>
      <label>
        {say('wording.area')}
        <select name="area">
          <option value="">{say('wording.area-all')}</option>
          {areas.map((area) => (
            <option key={area} value={area} selected={area === choice.area}>
              {area}
            </option>
          ))}
        </select>
      </label>
      <label>
        {say('wording.only')}
        <select name="only">
          {shows.map((one) => (
            <option key={one} value={one} selected={one === choice.only}>
              {say(`wording.only-${one}`)}
            </option>
          ))}
        </select>
      </label>
      <label>
        {say('wording.search')}
        <input type="search" name="search" value={choice.search} />
      </label>
      <button type="submit">{say('wording.show')}</button>
    </form>
  );
}
