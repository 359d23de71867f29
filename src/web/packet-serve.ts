import { codeBars, packetSheets } from '../core/drawing/index.ts';
import { dateNotes, packetInput, sceneOf, setFindings, settle, withNotes } from '../core/outcome.ts';
import { paperOf } from '../core/plan/index.ts';
import { svgParts } from '../print/svg.ts';
import type { FromPacket, Sheet, ToPacket } from './packet-protocol.ts';
import { WRITTEN } from './paper.ts';
import { builtFrom } from './sent-plan.ts';

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
    const built = builtFrom(message);
    if (!built) return;
    const { scene, cuts } = built;
    const { plan, option } = scene;
    const found = setFindings(scene);
    post({ type: 'found', revision, option: option.id, found });
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
