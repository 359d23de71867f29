import { type KeyboardEvent, memo, type ReactNode, useEffect, useRef } from 'preact/compat';
import type { RegisterEntry } from '../core/drawing/index.ts';
import { unbroken } from '../core/quantity/index.ts';
import { hashOf, type Route } from './route.ts';
import { create } from './store.ts';

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

/** Chapters that were opened or shut by hand; of the others stand open the one that is looked at and the one that is worked in. */
const useChapters = create<{ readonly byHand: Readonly<Record<string, boolean>> }>(() => ({ byHand: {} }));
const WORKED_IN = 'Room';

/** The register of pages along the edge: number, title, state, by chapter. Arrow keys go up and down it. */
export const RegisterNav = memo(function RegisterNav({
  register,
  route,
  page,
  counting,
  onFollow,
}: {
  /** Only the first pages are there yet. */
  readonly counting: boolean;
  readonly register: readonly RegisterEntry[];
  readonly route: Route;
  readonly page: string;
  /** Of the page that is looked at too: the address does not change then. */
  readonly onFollow: () => void;
}) {
  const nav = useRef<HTMLElement>(null);
  const byHand = useChapters((c) => c.byHand);
  useEffect(() => {
    nav.current?.querySelector('[aria-current]')?.scrollIntoView({ block: 'nearest' });
  }, [page]);
  const onKey = (event: KeyboardEvent<HTMLElement>) => {
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (by === undefined) return;
    const stops = [...nav.current!.querySelectorAll<HTMLElement>('a, button')];
    stops[stops.indexOf(event.target as HTMLElement) + by]?.focus();
    event.preventDefault();
  };
  const chapters = [...new Set(register.map((entry) => entry.chapter))];
  const link = (to: Route, current: boolean, number: string, title: string, state?: string): ReactNode => (
    <li key={`${to.to} ${title} ${number}`}>
      <a href={hashOf(to)} aria-current={current ? 'page' : undefined} onClick={onFollow}>
        <span className="number">{number}</span>
        <span>{unbroken(title)}</span>
        {state && <span className="state">{state}</span>}
      </a>
    </li>
  );
  return (
    // arrows only move the focus among its links
    <nav aria-label="Pages" className="register" ref={nav} onKeyDown={onKey}>
      {chapters.map((chapter) => {
        const pages = register.filter((entry) => entry.chapter === chapter);
        const here = route.to === 'page' && pages.some((entry) => entry.id === page);
        const open = byHand[chapter] ?? (here || chapter === WORKED_IN);
        const notes = pages.reduce((n, { state }) => n + (Number.parseInt(state ?? '', 10) || 0), 0);
        const links = (
          <ol>
            {pages.map((entry) =>
              link(
                { to: 'page', id: entry.id },
                here && entry.id === page,
                String(entry.number),
                entry.title,
                entry.state,
              ),
            )}
          </ol>
        );
        if (pages.length === 1)
          return (
            <div key={chapter} className="alone">
              {links}
            </div>
          );
        return (
          <div key={chapter}>
            <h2>
              <button
                type="button"
                aria-expanded={open}
                onClick={() => useChapters.setState({ byHand: { ...byHand, [chapter]: !open } })}
              >
                <span>{chapter}</span>
                {!open && (
                  <span className="state">
                    {pages.length} pages{notes > 0 && `, ${notes} notes`}
                  </span>
                )}
              </button>
            </h2>
            {open && links}
          </div>
        );
      })}
      {counting && (
        <p className="hint" role="status">
          The other pages are being drawn …
        </p>
      )}
      <div>
        <h2 className="bench-title">At the bench</h2>
        <ol>
          {VIEWS.map(({ id, title }) => link({ to: 'view', id }, route.to === 'view' && route.id === id, '', title))}
          {link({ to: 'shop' }, false, '', 'Shop view')}
        </ol>
      </div>
    </nav>
  );
});
