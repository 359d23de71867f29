import type { PacketInput } from '../input.ts';
import type { Page, PaperName } from '../marks.ts';
import { boardLayoutPages } from './board-layouts.ts';
import { coverPages, tallyItems } from './cover.ts';
import { deskOf } from './desk.ts';
import { elevationPages } from './elevation.ts';
import { labelPages, labelSheet } from './labels.ts';
import { panelLayoutPages } from './panel-layouts.ts';
import { partListPages } from './part-list.ts';
import { piecePages } from './piece.ts';
import { planPages } from './plan-view.ts';
import { bindPages, type Draft } from './sheet.ts';
import { shoppingPages } from './shopping-list.ts';
import { storyStickPages } from './story-stick.ts';
import { workingPages } from './workings.ts';

export interface PacketOptions {
  readonly paper: PaperName;
  /** A key of LABEL_SHEETS; left out, plain paper with lines to cut along. */
  readonly labels?: string;
}

/** All sheets of the packet in their order, numbered. The same input gives the same pages. */
export function packetPages(input: PacketInput, { paper, labels }: PacketOptions): readonly Page[] {
  const desk = deskOf(input, paper);
  const after: readonly Draft[] = [
    ...planPages(desk),
    ...elevationPages(desk),
    ...piecePages(desk),
    ...partListPages(desk),
    ...panelLayoutPages(desk),
    ...boardLayoutPages(desk),
    ...shoppingPages(desk),
    ...labelPages(desk, labelSheet(paper, labels)),
    ...storyStickPages(desk),
    ...workingPages(desk),
  ];
  const drafts = [...coverPages(desk, after), ...after];
  return bindPages(drafts, paper, {
    plan: input.plan.title,
    option: input.option.title ?? input.option.id,
    dimensions: desk.letter.dimensions,
    tally: tallyItems(desk),
    ...(input.date && { date: input.date }),
  });
}
