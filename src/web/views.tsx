import type { Plan } from '../core/plan/index.ts';
import type { Worked } from './bench.ts';

export type WorkedPlan = Worked & { readonly plan: Plan };

/** What stands in the register beside the sheets of the packet. */
export default function Views({
  id,
  title,
}: {
  readonly id: string;
  readonly title: string;
  readonly worked: WorkedPlan;
}) {
  return (
    <h2>
      {title} {id}
    </h2>
  );
}
