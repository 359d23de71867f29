import type { Cut } from '../core/bill/index.ts';
import { codeBars, packetSheets } from '../core/drawing/index.ts';
import { dateNotes, findOption, packetInput, sceneOf, setFindings, settle, withNotes } from '../core/outcome.ts';
import { readPlan } from '../core/plan/index.ts';
import { cutJobs } from '../core/stock/index.ts';
import { svgParts } from '../print/svg.ts';
import type { FromPacket, Sheet, ToPacket } from './packet-protocol.ts';
import { paperOf, WRITTEN } from './paper.ts';

/** What takes longer than a frame, for whoever runs it beside the page: a function that takes one message and posts its answers. */
export function servePacket(post: (message: FromPacket) => void): (message: ToPacket) => void {
  let sheets: ReadonlyMap<string, Sheet['page']> = new Map();
  return (message) => {
    const { revision } = message;
    if (message.type === 'page') {
      const page = sheets.get(message.id);
      const sheet = page && { page: { ...page, marks: [] }, parts: svgParts(page, WRITTEN, codeBars) };
      return post({ type: 'page', revision, sheet });
    }
    const { plan } = readPlan(message.text, {});
    const option = plan && findOption(plan, message.option);
    if (!plan || !option) return;
    const scene = sceneOf(plan, option);
    const found = setFindings(scene);
    post({ type: 'found', revision, option: option.id, found });
    const cuts = cutJobs(scene.parts, plan).flatMap((job, i): Cut[] => {
      const answer = message.answers[i];
      return answer ? [{ job, answer }] : [];
    });
    const settled = settle(scene, cuts, message.today, found);
    const dates = dateNotes(settled, message.today);
    post({ type: 'dates', revision, option: option.id, notes: dates });
    const drawn = packetSheets(packetInput(withNotes(settled, dates), [], message.today), { paper: paperOf(plan) });
    sheets = new Map(drawn.pages.map((page) => [page.id, page]));
    post({ type: 'drawn', revision, register: drawn.register });
    const others = plan.options.filter((one) => one !== option);
    if (others.length > 0)
      post({
        type: 'others',
        revision,
        found: others.map((one) => [one.id, setFindings(sceneOf(plan, one))] as const),
      });
  };
}
