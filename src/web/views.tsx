import { OptionsView } from './options-view.tsx';
import { PricesView } from './prices-view.tsx';
import { RackView } from './rack-view.tsx';
import { RevisionsView } from './revisions-view.tsx';
import { RoundView } from './round-view.tsx';
import { StepsView } from './steps-view.tsx';
import { WordsView } from './words-view.tsx';
import type { WorkedPlan } from './worked-plan.ts';

/** What stands in the register beside the sheets of the packet. */
export default function Views({ id, worked }: { readonly id: string; readonly worked: WorkedPlan }) {
  switch (id) {
    case 'round':
      return <RoundView worked={worked} />;
    case 'options':
      return <OptionsView worked={worked} />;
    case 'steps':
      return <StepsView worked={worked} />;
    case 'prices':
      return <PricesView worked={worked} />;
    case 'rack':
      return <RackView worked={worked} />;
    case 'revisions':
      return <RevisionsView />;
    default:
      return <WordsView />;
  }
}
