import type { ComponentType, ReactNode } from 'preact/compat';
import { insist } from './insist.ts';
import { create } from './store.ts';

interface Loading<Props> {
  readonly come: ComponentType<Props> | undefined;
  readonly failed: boolean;
}

/** A part of the page whose script is asked for when it is first shown, and until it comes: a bad connection takes nothing else along. */
export function later<Props extends object>(
  load: () => Promise<{ readonly default: ComponentType<Props> }>,
  meanwhile: ReactNode = null,
  missing: ReactNode = <NotCome />,
): ComponentType<Props> {
  const useLoading = create<Loading<Props>>(() => ({ come: undefined, failed: false }));
  let asked = false;
  return function Later(props: Props) {
    const { come: Come, failed } = useLoading();
    if (!asked) {
      asked = true;
      void insist(load, () => useLoading.setState({ failed: true })).then(({ default: come }) =>
        useLoading.setState({ come }),
      );
    }
    if (Come) return <Come {...props} />;
    return failed ? missing : meanwhile;
  };
}

export const ONE_MOMENT = <p>One moment …</p>;

/** That something is missing, why, and what is done about it. */
export function NotCome({ what = 'This part of the page', more }: { readonly what?: string; readonly more?: string }) {
  return (
    <p role="status" className="not-come">
      {what} could not be loaded: the workbench is not reached. It is asked for again by itself. {more}{' '}
      {/* a workbench that was begun anew meanwhile may have other scripts */}
      <button type="button" className="link" onClick={() => location.reload()}>
        Load the page again
      </button>
    </p>
  );
}
