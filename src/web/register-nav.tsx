import { type KeyboardEvent, useEffect, useRef } from 'react';
import type { RegisterEntry } from '../core/drawing/index.ts';
import { hashOf, type Route } from './route.ts';

/** What is not drawn on a sheet of the packet, but stands in the same register. */
export const VIEWS = [
  { id: 'round', title: 'In the round' },
  { id: 'options', title: 'Options side by side' },
  { id: 'steps', title: 'Price steps' },
  { id: 'prices', title: 'Price book' },
  { id: 'rack', title: 'Rack' },
  { id: 'revisions', title: 'Revisions' },
  { id: 'words', title: 'The plan in words' },
] as const;

/** The register of pages along the edge: number, title, state, by chapter. Arrow keys go from page to page. */
export function RegisterNav({
  register,
  route,
  page,
}: {
  readonly register: readonly RegisterEntry[];
  readonly route: Route;
  readonly page: string;
}) {
  const nav = useRef<HTMLElement>(null);
  useEffect(() => {
    nav.current?.querySelector('[aria-current]')?.scrollIntoView({ block: 'nearest' });
  }, []);
  const onKey = (event: KeyboardEvent) => {
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (by === undefined) return;
    const links = [...nav.current!.querySelectorAll('a')];
    links[links.indexOf(event.target as HTMLAnchorElement) + by]?.focus();
    event.preventDefault();
  };
  const chapters = [...new Set(register.map((entry) => entry.chapter))];
  const link = (to: Route, current: boolean, number: string, title: string, state?: string) => (
    <li key={`${to.to} ${title} ${number}`}>
      <a href={hashOf(to)} aria-current={current ? 'page' : undefined}>
        <span className="number">{number}</span>
        <span>{title}</span>
        {state && <span className="state">{state}</span>}
      </a>
    </li>
  );
  return (
    // arrows only move the focus among its links
    <nav aria-label="Pages" className="register" ref={nav} onKeyDown={onKey}>
      {chapters.map((chapter) => (
        <div key={chapter}>
          <h2>{chapter}</h2>
          <ol>
            {register
              .filter((entry) => entry.chapter === chapter)
              .map((entry) =>
                link(
                  { to: 'page', id: entry.id },
                  route.to === 'page' && entry.id === page,
                  String(entry.number),
                  entry.title,
                  entry.state,
                ),
              )}
          </ol>
        </div>
      ))}
      <div>
        <h2>At the bench</h2>
        <ol>
          {VIEWS.map(({ id, title }) => link({ to: 'view', id }, route.to === 'view' && route.id === id, '', title))}
          {link({ to: 'shop' }, false, '', 'Shop view')}
        </ol>
      </div>
    </nav>
  );
}
