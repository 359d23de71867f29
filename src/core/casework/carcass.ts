import { toTicks } from '../quantity/index.ts';
import type { Carcass } from './carcass-planes.ts';
import { DEFAULTS } from './defaults.ts';
import { divide, equally } from './divide.ts';
import {
  addPart,
  cuboid,
  type Draft,
  join,
  letInto,
  long,
  type PartWanted,
  type Path,
  type Span,
  take,
} from './draft.ts';
import type { Habits } from './habits.ts';
import type { Material } from './material.ts';
import type { Space } from './space.ts';

/** Sides, bottom, top, back and face frame. */
export function buildCarcass(draft: Draft, habits: Habits, carcass: Carcass): void {
  const { x, inner, bottom, top, z, made } = carcass;
  const { panel, joint, let: depth, capped, back } = habits;
  const corner = joint === 'butt' ? 0 : depth;
  const bottomLet = joint === 'dado' || (joint === 'rabbet' && bottom[0] === carcass.sideFoot) ? depth : 0;
  const edge = (...towards: ('front' | 'up' | 'left' | 'right')[]) =>
    habits.band && { ...habits.band, towards: habits.frame ? towards.filter((d) => d !== 'front') : towards };
  const part = (wanted: Omit<PartWanted, 'material' | 'path'> & { material?: Material }) =>
    addPart(draft, { material: panel, path: carcass.path, ...wanted });

  const sideTop = capped ? top[0] + corner : top[1];
  const sideY: Span = [carcass.sideFoot, sideTop];
  const bare = !carcass.lid && !capped;
  const side = (which: 'left' | 'right', at: Span) =>
    part({
      id: `${which}-side`,
      name: `${which} side`,
      role: 'side',
      box: cuboid(at, sideY, z),
      length: 'y',
      thickness: 'x',
      band: bare ? edge('front', 'up') : edge('front'),
      show: carcass.ends[which] ? (which === 'left' ? 'right' : 'left') : which,
    });
  made.left = side('left', [x[0], inner[0]]);
  made.right = side('right', [inner[1], x[1]]);
  made.bottom = part({
    id: 'bottom',
    name: 'bottom',
    role: 'bottom',
    box: cuboid([inner[0] - bottomLet, inner[1] + bottomLet], bottom, z),
    length: 'x',
    thickness: 'y',
    band: edge('front'),
  });
  const shown = capped && !carcass.lid;
  const topEdges: ('front' | 'left' | 'right')[] = ['front'];
  if (shown && !carcass.ends.left && carcass.fillers.left === 0) topEdges.push('left');
  if (shown && !carcass.ends.right && carcass.fillers.right === 0) topEdges.push('right');
  made.top = part({
    id: 'top',
    name: 'top',
    role: 'top',
    box: cuboid(capped ? x : [inner[0] - corner, inner[1] + corner], top, z),
    length: 'x',
    thickness: 'y',
    band: edge(...topEdges),
  });
  for (const s of [made.left, made.right]) {
    letInto(
      draft,
      bottom[0] === carcass.sideFoot ? 'rabbet' : 'dado',
      made.bottom,
      s,
      bottomLet > 0 ? ['glue', 'brads'] : ['glue', 'screws'],
    );
    const fasten = corner > 0 ? (['glue', 'brads'] as const) : (['glue', 'screws'] as const);
    if (capped) letInto(draft, 'rabbet', s, made.top, fasten);
    else letInto(draft, 'rabbet', made.top, s, fasten);
  }

  if (back) {
    const applied = back.kind === 'applied';
    const at: Span =
      back.kind === 'grooved' ? [back.inset, back.inset + back.panel.thickness] : [0, back.panel.thickness];
    made.back = part({
      id: 'back',
      name: 'back',
      role: 'back',
      // wide backs need the sheet's length across: which way their grain runs is nobody's sorrow (common practice)
      grainMatters: false,
      material: back.panel,
      box: applied
        ? cuboid(x, carcass.y, at)
        : cuboid([inner[0] - depth, inner[1] + depth], [bottom[1] - depth, top[0] + depth], at),
      length: 'y',
      thickness: 'z',
    });
    for (const p of [made.left, made.right, made.top, made.bottom]) {
      if (applied) join(draft, 'applied', made.back, p, ['glue', 'brads']);
      else
        letInto(
          draft,
          back.kind === 'grooved' ? 'groove' : 'rabbet',
          made.back,
          p,
          back.kind === 'grooved' ? ['glue'] : ['glue', 'brads'],
        );
    }
  }
  if (habits.frame) buildFrame(draft, habits, carcass);
}

function buildFrame(draft: Draft, habits: Habits, carcass: Carcass): void {
  const { frame } = habits;
  if (!frame) return;
  const { x, y, made } = carcass;
  const z: Span = [carcass.z[1], carcass.face];
  const across: Span = [x[0] + frame.stile, x[1] - frame.stile];
  const member = (id: string, name: string, role: string, box: ReturnType<typeof cuboid>, length: 'x' | 'y') =>
    addPart(draft, { id, name, role, material: frame.board, box, length, thickness: 'z', path: carcass.path });
  const f = made.frame;
  f.left = member('left-stile', 'left stile', 'stile', cuboid([x[0], across[0]], y, z), 'y');
  f.right = member('right-stile', 'right stile', 'stile', cuboid([across[1], x[1]], y, z), 'y');
  f.bottom = member('bottom-rail', 'bottom rail', 'rail', cuboid(across, [y[0], y[0] + frame.rail], z), 'x');
  f.top = member('top-rail', 'top rail', 'rail', cuboid(across, [y[1] - frame.rail, y[1]], z), 'x');
  for (const rail of [f.bottom, f.top])
    for (const stile of [f.left, f.right]) join(draft, 'butt', rail, stile, ['glue', 'screws']);
  for (const which of ['left', 'right', 'bottom', 'top'] as const)
    join(draft, 'applied', f[which], made[which], ['glue', 'brads']);
}

/** The toe board in its notches, or the plinth the case stands on. Both run on under a filler that has no end panel before it. */
export function buildToe(draft: Draft, carcass: Carcass, habits: Habits, oddAtEnd: boolean): void {
  const { toe, x, y, z, made } = carcass;
  if (!toe) return;
  const t = toe.board.thickness;
  const along: Span = [carcass.ends.left ? x[0] : 0, carcass.ends.right ? x[1] : carcass.size.width];
  const high: Span = [0, y[0]];
  const board = (id: string, name: string, box: ReturnType<typeof cuboid>, axis: 'x' | 'z') =>
    addPart(draft, {
      id,
      name,
      role: toe.kind === 'notch' ? 'toe board' : 'plinth',
      material: toe.board,
      box,
      length: axis,
      thickness: axis === 'x' ? 'z' : 'x',
      path: [...carcass.path, 'toe'],
    });
  if (toe.kind === 'notch') {
    const front = board('toe-board', 'toe board', cuboid(along, high, toe.z), 'x');
    const plane = toe.z[0];
    for (const side of [made.left, made.right]) {
      take(side, { kind: 'notch', box: cuboid(x, high, [plane, carcass.size.depth]), why: 'toe space' });
      const edge = side && cuboid([side.box.min.x, side.box.max.x], high, [plane, plane]);
      join(draft, 'butt', front, side, ['glue', 'brads'], edge);
    }
    if (!habits.frame) join(draft, 'butt', front, made.bottom, ['glue', 'brads']);
    return;
  }
  const front = board('plinth-front', 'plinth front', cuboid(along, high, toe.z), 'x');
  const rear = board('plinth-rear', 'plinth rear', cuboid(x, high, [z[0], z[0] + t]), 'x');
  const between: Span = [z[0] + t, toe.z[0]];
  const runs = Math.max(1, Math.ceil((long(x) - t) / (toTicks(DEFAULTS.plinthSpan) + t)));
  const clear = divide(long(x) - (runs + 1) * t, equally(runs), oddAtEnd);
  if (!clear.fits) {
    draft.issues.push({
      path: [...carcass.path, 'toe', 'board'],
      message: 'the plinth leaves no room between its cross pieces',
      found: `${draft.notMore(long(x))} wide`,
    });
    return;
  }
  let at = x[0];
  for (let i = 0; i <= runs; i++) {
    const name = i === 0 ? 'left end' : i === runs ? 'right end' : `cross piece ${i}`;
    const cross = board(
      `plinth-${name.replaceAll(' ', '-')}`,
      `plinth ${name}`,
      cuboid([at, at + t], high, between),
      'z',
    );
    for (const rail of [front, rear]) join(draft, 'butt', cross, rail, ['glue', 'screws']);
    if (i === 0) join(draft, 'butt', made.left, cross, ['screws']);
    if (i === runs) join(draft, 'butt', made.right, cross, ['screws']);
    at += t + (clear.sizes[i] ?? 0);
  }
  for (const side of [made.left, made.right])
    for (const rail of [front, rear]) join(draft, 'butt', side, rail, ['screws']);
}

/** End panels, fillers and the separate top. */
export function buildSurround(draft: Draft, habits: Habits, carcass: Carcass): void {
  const { x, y, size, made, ends, fillers, face } = carcass;
  for (const which of ['left', 'right'] as const) {
    const left = which === 'left';
    const material = ends[which];
    let beside = [made.frame[which], made[which]];
    if (material) {
      const panel = addPart(draft, {
        id: `${which}-end`,
        name: `${which} end panel`,
        role: 'end panel',
        material,
        box: cuboid(left ? [x[0] - material.thickness, x[0]] : [x[1], x[1] + material.thickness], [0, y[1]], [0, face]),
        length: 'y',
        thickness: 'x',
        band: habits.band && { ...habits.band, towards: ['front'] },
        show: which,
        path: [...carcass.path, 'ends', which],
      });
      join(draft, 'applied', panel, made[which], ['screws']);
      beside = [panel];
    }
    const wide = fillers[which];
    if (wide > 0) {
      const strip = addPart(draft, {
        id: `${which}-filler`,
        name: `${which} filler`,
        role: 'filler',
        material: fillers.stock,
        box: cuboid(
          left ? [0, wide] : [size.width - wide, size.width],
          [material || !carcass.toe ? 0 : y[0], y[1]],
          [face - fillers.stock.thickness, face],
        ),
        length: 'y',
        thickness: 'z',
        path: [...carcass.path, 'fillers', which],
      });
      beside.some((p) => join(draft, 'butt', strip, p, ['screws']));
    }
  }
  if (carcass.lid) {
    const lid = addPart(draft, {
      id: 'separate-top',
      name: 'separate top',
      role: 'separate top',
      material: carcass.lid,
      box: cuboid(
        [-size.over.left, size.width + size.over.right],
        [y[1], size.height],
        [0, size.depth + size.over.front],
      ),
      length: 'x',
      thickness: 'y',
      band: habits.band && { ...habits.band, towards: ['front', 'left', 'right'] },
      path: [...carcass.path, 'top'],
    });
    join(draft, 'applied', lid, made.top, ['screws']);
  }
}

/** The inside of a case, before it is divided. */
export function rootSpace(carcass: Carcass, habits: Habits, path: Path): Space {
  const { inner, bottom, top, made, x, y } = carcass;
  const { frame, reveal, panel } = habits;
  const open = frame
    ? { x: [x[0] + frame.stile, x[1] - frame.stile] as Span, y: [bottom[1], y[1] - frame.rail] as Span }
    : { x: inner, y: [bottom[1], top[0]] as Span };
  const [acrossX, acrossY] = [(frame?.stile ?? panel.thickness) - reveal, (frame?.rail ?? panel.thickness) - reveal];
  return {
    x: inner,
    y: [bottom[1], top[0]],
    z: [carcass.inside, carcass.z[1]],
    open,
    face: carcass.face,
    behind: false,
    panels: { left: made.left, right: made.right, top: made.top, bottom: made.bottom },
    members: frame ? made.frame : { left: made.left, right: made.right, top: made.top, bottom: made.bottom },
    cover: { left: acrossX, right: acrossX, top: acrossY, bottom: acrossY },
    back: made.back,
    id: '',
    number: '',
    level: 0,
    path: [...path, 'inside'],
  };
}
