import type { PacketInput } from '../input.ts';
import type { Page, PaperName } from '../marks.ts';
import { coverPages, tallyItems } from './cover.ts';
import { deskOf } from './desk.ts';
import { elevationPages } from './elevation.ts';
import { partListPages } from './part-list.ts';
import { bindPages, type Draft } from './sheet.ts';

export interface PacketOptions {
  readonly paper: PaperName;
}

/** All sheets of the packet in their order, numbered. The same input gives the same pages. */
export function packetPages(input: PacketInput, { paper }: PacketOptions): readonly Page[] {
  const desk = deskOf(input, paper);
  const drafts: readonly Draft[] = [...coverPages(desk), ...elevationPages(desk), ...partListPages(desk)];
  return bindPages(drafts, paper, {
    plan: input.plan.title,
    option: input.option.title ?? input.option.id,
    dimensions: desk.letter.dimensions,
    tally: tallyItems(desk),
    ...(input.date && { date: input.date }),
  });
}
