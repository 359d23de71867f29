import type { Page, RegisterEntry } from '../core/drawing/index.ts';
import type { Note } from '../core/notes/index.ts';
import type { SetFindings } from '../core/outcome.ts';
import type { SvgParts } from '../print/svg.ts';
import type { SentPlan } from './sent-plan.ts';

/** A sheet that was written already: of the page itself no marks are sent along. */
export interface Sheet {
  readonly page: Page;
  readonly parts: SvgParts;
}

export type ToPacket = { readonly revision: number } & (
  | ({ readonly type: 'draw'; readonly today: string } & SentPlan)
  | { readonly type: 'page'; readonly id: string }
);

/** In this order to one `draw`: what is known early is told early, and what only comparing asks for comes last. The page drops what is not its newest revision. */
export type FromPacket = { readonly revision: number } & (
  | { readonly type: 'found'; readonly option: string; readonly found: SetFindings }
  | { readonly type: 'dates'; readonly option: string; readonly notes: readonly Note[] }
  | { readonly type: 'drawn'; readonly register: readonly RegisterEntry[] }
  /** Of the options that are not looked at. */
  | { readonly type: 'others'; readonly found: readonly (readonly [option: string, SetFindings])[] }
  | { readonly type: 'page'; readonly sheet: Sheet | undefined }
);
