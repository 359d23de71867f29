import { useMemo, useSyncExternalStore } from 'preact/compat';

/**
 * Where one is, in the address after `#`: `/page/elevation-north`, `/view/options`, `/shop`, `/part/scores/left-side`. So a page can be
 * kept, sent and opened from a label.
 */
export type Route =
  | { readonly to: 'page'; readonly id: string }
  | { readonly to: 'view'; readonly id: string }
  | { readonly to: 'shop' }
  | { readonly to: 'part'; readonly id: string };

export function routeOf(hash: string): Route {
  const [, to = '', ...rest] = hash.replace(/^#/, '').split('/');
  let id = rest.join('/');
  try {
    id = decodeURIComponent(id);
  } catch {
    id = '';
  }
  if (to === 'shop') return { to: 'shop' };
  if (to === 'view' || to === 'part') return { to, id };
  return { to: 'page', id };
}
export const hashOf = (route: Route): string =>
  route.to === 'shop' ? '#/shop' : `#/${route.to}/${encodeURIComponent(route.id)}`;

export const go = (route: Route): void => {
  location.hash = hashOf(route);
};
const subscribe = (changed: () => void) => {
  addEventListener('hashchange', changed);
  return () => removeEventListener('hashchange', changed);
};
/** The same route as long as one stays there. */
export function useRoute(): Route {
  const hash = useSyncExternalStore(subscribe, () => location.hash);
  return useMemo(() => routeOf(hash), [hash]);
}
