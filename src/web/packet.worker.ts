import './strict.ts';
import type { Cut } from '../core/bill/index.ts';
import type { CutProblemAnswer } from '../core/cutting/index.ts';
import { type Page, packetSheets, type RegisterEntry } from '../core/drawing/index.ts';
import {
  dateNotes,
  findOption,
  packetInput,
  type SetFindings,
  sceneOf,
  setFittings,
  setNotes,
  settle,
  withNotes,
} from '../core/outcome.ts';
import { readPlan } from '../core/plan/index.ts';
import { cutJobs } from '../core/stock/index.ts';
import { paperOf } from './paper.ts';

export type ToPacket = { readonly revision: number } & (
  | {
      readonly type: 'draw';
      readonly text: string;
      readonly option: string;
      readonly today: string;
      /** In the order of the cutting jobs. */
      readonly answers: readonly CutProblemAnswer[];
    }
  | { readonly type: 'page'; readonly id: string }
);
export type FromPacket = { readonly revision: number } & (
  | {
      readonly type: 'drawn';
      readonly option: string;
      readonly register: readonly RegisterEntry[];
      /** Of this option all; of the others what they buy, so that costs can be compared. */
      readonly found: readonly (readonly [option: string, SetFindings])[];
    }
  | { readonly type: 'page'; readonly page: Page | undefined }
);

const scope = self as unknown as {
  onmessage: (event: MessageEvent<ToPacket>) => void;
  postMessage: (message: FromPacket) => void;
};
let pages: readonly Page[] = [];
scope.onmessage = ({ data }) => {
  const { revision } = data;
  if (data.type === 'page') {
    scope.postMessage({ type: 'page', revision, page: pages.find((page) => page.id === data.id) });
    return;
  }
  const { plan } = readPlan(data.text, {});
  const option = plan && findOption(plan, data.option);
  if (!plan || !option) return;
  const scene = sceneOf(plan, option);
  const cuts = cutJobs(scene.parts, plan).flatMap((job, i): Cut[] => {
    const answer = data.answers[i];
    return answer ? [{ job, answer }] : [];
  });
  const set = { notes: setNotes(scene), fittings: setFittings(scene) };
  const settled = settle(scene, cuts, data.today, set);
  const dates = dateNotes(settled, data.today);
  const own = { ...set, notes: [...set.notes, ...dates] };
  const found = plan.options.map(
    (one) => [one.id, one === option ? own : { notes: [], fittings: setFittings(sceneOf(plan, one)) }] as const,
  );
  const input = packetInput(withNotes(settled, dates), [], data.today);
  const sheets = packetSheets(input, { paper: paperOf(plan) });
  pages = sheets.pages;
  scope.postMessage({ type: 'drawn', revision, option: option.id, register: sheets.register, found });
};
