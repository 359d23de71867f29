import type { ReactNode } from 'preact/compat';
import { Line, type Typing } from './field.tsx';

/** Something to be typed that is not in the plan yet, with what is wrong with it beside it. */
export const Entry = (typing: Typing): ReactNode => (
  <div className="field">
    <Line {...typing} />
  </div>
);
