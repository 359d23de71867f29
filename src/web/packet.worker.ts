import './strict.ts';
import type { Cut } from '../core/bill/index.ts';
import type { CutProblemAnswer } from '../core/cutting/index.ts';
import { type Page, packetSheets, type RegisterEntry } from '../core/drawing/index.ts';
import type { Note } from '../core/notes/index.ts';
import { findOption, packetInput, sceneOf, setNotes, settle } from '../core/outcome.ts';
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
      readonly notes: readonly Note[];
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
  const notes = setNotes(scene);
  const input = packetInput(settle(scene, cuts, data.today, notes), [], data.today);
  const sheets = packetSheets(input, { paper: paperOf(plan) });
  pages = sheets.pages;
  scope.postMessage({ type: 'drawn', revision, option: option.id, register: sheets.register, notes });
};
