import type { Route } from './route.ts';
export default function Shop({ route }: { readonly route: Route }) {
  return <p>{route.to}</p>;
}
