import type { PacketInput } from '../input.ts';
import type { Page, PaperName } from '../marks.ts';
import { assemblyPages } from './assembly.ts';
import { boardLayoutPages } from './board-layouts.ts';
import { cameraPages } from './camera.ts';
import { coverPages, tallyItems } from './cover.ts';
import { type Desk, deskOf } from './desk.ts';
import { elevationPages } from './elevation.ts';
import { labelPages, labelSheet } from './labels.ts';
import { lightPages } from './light.ts';
import { panelLayoutPages } from './panel-layouts.ts';
import { partListPages } from './part-list.ts';
import { piecePages } from './piece.ts';
import { planPages } from './plan-view.ts';
import { settingOutPages } from './setting-out.ts';
import { bindPages, type Chapter, type Draft, type Furniture } from './sheet.ts';
import { shoppingPages } from './shopping-list.ts';
import { soundPages } from './sound.ts';
import { storyStickPages } from './story-stick.ts';
import { wiringPages } from './wiring.ts';
import { workingPages } from './workings.ts';

export interface PacketOptions {
  readonly paper: PaperName;
  /** A key of LABEL_SHEETS; left out, plain paper with lines to cut along. */
  readonly labels?: string;
}

type Draw = (desk: Desk, options: PacketOptions) => readonly Draft[];

/** What draws the pages whose ids begin so, in the order of the packet; the cover comes before all of them. */
const DRAWERS: readonly { readonly ids: readonly string[]; readonly draw: Draw }[] = [
  { ids: ['plan'], draw: planPages },
  { ids: ['elevation'], draw: elevationPages },
  { ids: ['piece', 'details'], draw: piecePages },
  { ids: ['parts'], draw: partListPages },
  { ids: ['layout'], draw: panelLayoutPages },
  { ids: ['boards'], draw: boardLayoutPages },
  { ids: ['shopping'], draw: shoppingPages },
  { ids: ['assembly'], draw: assemblyPages },
  { ids: ['labels'], draw: (desk, { paper, labels }) => labelPages(desk, labelSheet(paper, labels)) },
  { ids: ['setting'], draw: settingOutPages },
  { ids: ['stick'], draw: storyStickPages },
  { ids: ['wiring'], draw: wiringPages },
  { ids: ['light'], draw: lightPages },
  { ids: ['sound'], draw: soundPages },
  { ids: ['camera'], draw: cameraPages },
  { ids: ['workings'], draw: workingPages },
];

const drawerOf = (id: string) =>
  DRAWERS.find(({ ids }) => ids.some((start) => id === start || id.startsWith(`${start}-`)));

function draftsOf(desk: Desk, options: PacketOptions): readonly Draft[] {
  const after = DRAWERS.flatMap(({ draw }) => draw(desk, options));
  return [...coverPages(desk, after), ...after];
}

/** All sheets of the packet in their order, numbered. The same input gives the same pages. */
export function packetPages(input: PacketInput, options: PacketOptions): readonly Page[] {
  const desk = deskOf(input, options.paper);
  return bindPages(draftsOf(desk, options), options.paper, furnitureOf(desk));
}

/** A page as the register names it: everything but its marks. */
export interface RegisterEntry extends Omit<Page, 'marks' | 'width' | 'height'> {
  readonly chapter: Chapter;
  /** Of a page that fills a paper of its own size. */
  readonly bare?: { readonly width: number; readonly height: number };
}

/**
 * The pages of the packet without their marks: what a screen lists, and draws one page at a time by `drawPage`. It takes as long as
 * drawing them all, so it comes in steps, one chapter each; whoever runs it may do something else between them.
 */
export function* packetRegister(
  input: PacketInput,
  options: PacketOptions,
): Generator<undefined, readonly RegisterEntry[], void> {
  const desk = deskOf(input, options.paper);
  const after: Draft[] = [];
  for (const { draw } of DRAWERS) {
    after.push(...draw(desk, options));
    yield;
  }
  const drafts = [...coverPages(desk, after), ...after];
  return drafts.map(({ marks: _, ...entry }, i) => ({ ...entry, number: i + 1 }));
}

/**
 * One page, for a plan that changes under the hand: numbers and tabs come from a register that may be a little older. Undefined when
 * there is no such page.
 */
export function drawPage(
  input: PacketInput,
  options: PacketOptions,
  register: readonly RegisterEntry[],
  id: string,
): Page | undefined {
  const desk = deskOf(input, options.paper);
  const drawer = drawerOf(id);
  const stand = register.map((entry): Draft => ({ ...entry, marks: [], bare: entry.bare ?? { width: 0, height: 0 } }));
  const pages = drawer
    ? drawer.draw(desk, options)
    : coverPages(
        desk,
        stand.filter((entry) => drawerOf(entry.id)),
      );
  const draft = pages.find((page) => page.id === id);
  if (!draft) return undefined;
  const line = stand.some((entry) => entry.id === id)
    ? stand.map((entry) => (entry.id === id ? draft : entry))
    : [...stand, draft];
  return bindPages(line, options.paper, furnitureOf(desk)).find((page) => page.id === id);
}

const furnitureOf = (desk: Desk): Furniture => ({
  plan: desk.input.plan.title,
  option: desk.input.option.title ?? desk.input.option.id,
  dimensions: desk.letter.dimensions,
  tally: tallyItems(desk),
  ...(desk.input.date && { date: desk.input.date }),
});
