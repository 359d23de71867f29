import type { PacketInput } from '../input.ts';
import type { Page, PaperName } from '../marks.ts';
import { assemblyPages } from './assembly.ts';
import { boardLayoutPages } from './board-layouts.ts';
import { calendarPages } from './calendar.ts';
import { cameraPages } from './camera.ts';
import { coverPages, tallyItems } from './cover.ts';
import { type Desk, deskOf, type Held } from './desk.ts';
import { elevationPages } from './elevation.ts';
import { finishPages } from './finish.ts';
import { labelPages, labelSheet } from './labels.ts';
import { lightPages } from './light.ts';
import { panelLayoutPages } from './panel-layouts.ts';
import { partListPages } from './part-list.ts';
import { piecePages } from './piece.ts';
import { planPages } from './plan-view.ts';
import { settingOutPages } from './setting-out.ts';
import { bindPage, bindPages, type Chapter, type Draft, type Furniture } from './sheet.ts';
import { shoppingPages } from './shopping-list.ts';
import { soundPages } from './sound.ts';
import { storyStickPages } from './story-stick.ts';
import { templatePages } from './templates.ts';
import { wallFitPages } from './wall-fit.ts';
import { wiringPages } from './wiring.ts';
import { workingPages } from './workings.ts';

export interface PacketOptions {
  readonly paper: PaperName;
  /** A key of LABEL_SHEETS; left out, plain paper with lines to cut along. */
  readonly labels?: string;
}

type Draw = (desk: Desk, options: PacketOptions) => readonly Draft[];

/** What draws the packet, in its order, by what it draws; the cover comes before all of them. */
export const DRAWERS: Readonly<Record<string, Draw>> = {
  plan: (desk) => planPages(desk),
  elevations: (desk) => elevationPages(desk),
  pieces: piecePages,
  'part list': partListPages,
  panels: panelLayoutPages,
  boards: boardLayoutPages,
  shopping: shoppingPages,
  assembly: assemblyPages,
  labels: (desk, { paper, labels }) => labelPages(desk, labelSheet(paper, labels)),
  'setting-out': settingOutPages,
  templates: templatePages,
  'wall fit': wallFitPages,
  finish: finishPages,
  'story stick': storyStickPages,
  wiring: wiringPages,
  light: lightPages,
  sound: soundPages,
  camera: cameraPages,
  calendar: calendarPages,
  workings: workingPages,
};

/** A page as the register names it: everything but its marks. */
export interface RegisterEntry extends Omit<Page, 'marks' | 'width' | 'height'> {
  readonly chapter: Chapter;
  /** Of a page that fills a paper of its own size. */
  readonly bare?: { readonly width: number; readonly height: number };
}

/** All sheets of the packet in their order, numbered, and the register of them. The same input gives the same pages. */
export function packetSheets(
  input: PacketInput,
  options: PacketOptions,
): { readonly pages: readonly Page[]; readonly register: readonly RegisterEntry[] } {
  const desk = deskOf(input, options.paper);
  const after = Object.values(DRAWERS).flatMap((draw) => draw(desk, options));
  const drafts = [...coverPages(desk, after), ...after];
  return {
    pages: bindPages(drafts, options.paper, furnitureOf(desk)),
    register: drafts.map(({ marks: _, ...entry }, i) => ({ ...entry, number: i + 1 })),
  };
}
export const packetPages = (input: PacketInput, options: PacketOptions): readonly Page[] =>
  packetSheets(input, options).pages;

/** The pages that are worked on, by how their ids begin: what is drawn anew with every move of the hand. */
const LIVE: readonly {
  readonly ids: readonly string[];
  readonly draw: (desk: Desk, id: string, held: Held) => readonly Draft[];
}[] = [
  { ids: ['plan'], draw: (desk, _, held) => planPages(desk, held) },
  { ids: ['elevation'], draw: elevationPages },
];
const liveDrawer = (id: string) =>
  LIVE.find(({ ids }) => ids.some((start) => id === start || id.startsWith(`${start}-`)));
export const isLivePage = (id: string): boolean => liveDrawer(id) !== undefined;

/**
 * One of the pages that are worked on, for a plan that changes under the hand: numbers and tabs come from a register that may be a
 * little older. With `hold` its view lies where it lay, with `spots` its
 * balloons stand where they stood, as far as nothing has come there. Undefined when there is no such page. It needs only the few chapters it draws, so that a screen loads no others.
 */
export function drawLive(
  input: PacketInput,
  { paper, ...held }: PacketOptions & Held,
  register: readonly RegisterEntry[],
  id: string,
): Page | undefined {
  const desk = deskOf(input, paper);
  const draft = liveDrawer(id)
    ?.draw(desk, id, held)
    .find((page) => page.id === id);
  if (!draft) return undefined;
  const stand = register.map((entry): Draft => ({ ...entry, marks: [], bare: entry.bare ?? { width: 0, height: 0 } }));
  const line = stand.some((entry) => entry.id === id)
    ? stand.map((entry) => (entry.id === id ? draft : entry))
    : [...stand, draft];
  return bindPage(
    line,
    line.findIndex((page) => page.id === id),
    paper,
    furnitureOf(desk),
  );
}

const furnitureOf = (desk: Desk): Furniture => ({
  plan: desk.input.plan.title,
  option: desk.input.option.title ?? desk.input.option.id,
  dimensions: desk.letter.dimensions,
  tally: tallyItems(desk),
  ...(desk.input.date && { date: desk.input.date }),
});
