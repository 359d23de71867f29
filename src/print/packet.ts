import { type Page, type PaperName, packetPages } from '../core/drawing/index.ts';
import { type Outcome, packetInput } from '../core/outcome.ts';
import { paperOf } from '../core/plan/index.ts';
import { type Fonts, toPdf } from './pdf.ts';

export interface PacketOptions {
  /** The day the prices were held against; printed, and the date of the file. */
  readonly today: string;
  /** Left out: as the plan says, or the usual paper of its units. */
  readonly paper?: PaperName | undefined;
  /** The label sheet; left out: plain paper with lines to cut along. */
  readonly labels?: string | undefined;
}

/** The packet of the first outcome, compared with the others: the same outcomes and options give the same bytes. */
export async function packetOf(
  [outcome, ...others]: readonly [Outcome, ...Outcome[]],
  { today, paper, labels }: PacketOptions,
  fonts: Fonts,
): Promise<{
  readonly input: ReturnType<typeof packetInput>;
  readonly pages: readonly Page[];
  readonly pdf: Uint8Array;
}> {
  const { plan, option } = outcome;
  const input = packetInput(outcome, others, today);
  const pages = packetPages(input, { paper: paper ?? paperOf(plan), ...(labels !== undefined && { labels }) });
  const pdf = await toPdf(pages, fonts, {
    title: plan.title,
    subject: option.title ?? option.id,
    date: new Date(`${today}T12:00:00Z`),
  });
  return { input, pages, pdf };
}
