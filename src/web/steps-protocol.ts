import type { PriceSteps, StepsAsked } from '../core/bill/index.ts';

export interface ToSteps {
  readonly revision: number;
  readonly text: string;
  readonly option: string;
  readonly asked: StepsAsked;
  readonly today: string;
}
export type FromSteps = { readonly revision: number } & (
  | { readonly type: 'done'; readonly steps: PriceSteps }
  | { readonly type: 'crashed'; readonly message: string }
);
