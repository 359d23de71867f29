import type { Page } from '../core/drawing/index.ts';
import { useBench } from './bench.ts';

/** The register of pages along the edge: number, title, state. */
export function Register({ pages, current }: { readonly pages: readonly Page[]; readonly current: string }) {
  return (
    <nav aria-label="Pages" className="register">
      <ol>
        {pages.map((page) => (
          <li key={page.id}>
            <button
              type="button"
              aria-current={page.id === current ? 'page' : undefined}
              onClick={() => useBench.setState({ page: page.id })}
            >
              <span className="number">{page.number}</span> {page.title}
              {page.state && <span className="state">{page.state}</span>}
            </button>
          </li>
        ))}
      </ol>
    </nav>
  );
}
