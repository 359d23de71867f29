import type { ReactNode } from 'preact/compat';
import { unbroken } from '../core/quantity/index.ts';
import { Line, type Typing } from './field.tsx';

/** Something to be typed that is not in the plan yet, with what is wrong with it beside it, or how it is read where that is not plain. */
export const Entry = ({ read, ...typing }: Typing & { readonly read?: string | undefined }): ReactNode => (
  <div className="field">
    <Line {...typing} />
    {read !== undefined && typing.wrong === undefined && <output>{unbroken(read)}</output>}
  </div>
);
