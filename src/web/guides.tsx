import { type RefObject, useState } from 'preact/compat';
import type { Page, PageView } from '../core/drawing/index.ts';
import { sharing } from '../core/plan/index.ts';
import { layAt, placeOf } from './laid.ts';
import type { Guide } from './pull.ts';

/** Lines through what caught the piece, what that is, and a frame where the piece comes to. They change with every step of a hand, and all that can be held does not. */
export function Guides({
  show,
  page,
  view,
}: {
  readonly show: RefObject<(guide: Guide) => void>;
  readonly page: Page;
  readonly view: PageView;
}) {
  const [guide, setGuide] = useState<Guide>({});
  show.current = (now) => setGuide((before) => sharing(before, now));
  const x = guide.u && ((view.origin.x + guide.u.at / view.ratio) / page.width) * 100;
  const y = guide.v && ((view.origin.y + guide.v.at / view.ratio) / page.height) * 100;
  return (
    <>
      {guide.comesTo && <span className="comes-to" ref={(node) => layAt(node, placeOf(page, view, guide.comesTo!))} />}
      {guide.u && (
        <span className="guide upright" ref={(node) => node?.style.setProperty('left', `${x}%`)}>
          <b>{guide.u.what}</b>
        </span>
      )}
      {guide.v && (
        <span className="guide level" ref={(node) => node?.style.setProperty('top', `${y}%`)}>
          <b>{guide.v.what}</b>
        </span>
      )}
    </>
  );
}
