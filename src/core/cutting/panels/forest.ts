import type { Model } from './model.ts';

/**
 * The sheets of a plan as slicing trees that can be pruned and grafted quickly.
 *
 * A leaf is a part, an inner node a row of children side by side along its axis (0 along x, 1 along y); axes alternate from
 * level to level. So every tree is a pattern of edge-to-edge cuts, with any number of stages. Sizes are worked out from below
 * (what the parts need) and rooms from above (how far a node may grow before the sheet is full), so a part may be put wherever
 * both sums still hold: a row is free to become wider by taking what is left over elsewhere. No leftover is stored.
 *
 * Source of the idea: trees of guillotine cuts with insertion of single parts, Fleszar, "Three insertion heuristics and a
 * justification improvement heuristic for two-dimensional bin packing with guillotine cuts", Computers & Operations Research 40,
 * 2013; Gardeyn & Wauters, "A goal-driven ruin and recreate heuristic for the 2D variable-sized bin packing problem with
 * guillotine constraints", European Journal of Operational Research 301, 2022. Growing rows are ours.
 *
 * Everything is in flat arrays: this is the inner loop of the search. Node numbers 0 … parts-1 are the parts themselves.
 */

/** Of one place a part may be put: furthest growth in x and y, growth at no cost in x and y, the node beside it, how. */
const STRIDE = 6;
const APPEND = 0;
const BESIDE = 2;
/** Beside the so many shortest children of a row; the number stands from bit 3 on. */
const GROUP = 4;

/** Children of longer rows are not grouped. */
const MOST_GROUPED = 24;

/** What a sheet not yet used has of anything: most of a thousand slots stay empty. */
const NONE = new Int32Array(0);

/** Large leftovers are worth more than the same area in pieces. Exponent 3/2: measured against 1.2, 1.35 and 2. */
const worth = (area: number): number => area * Math.sqrt(area);

export function createForest(model: Model, kindOf: Int32Array, slots: number) {
  const parts = kindOf.length;
  const nodes = 2 * parts + slots + 2;
  const kindLength = Int32Array.from(model.kinds, (kind) => kind.length);
  const kindWidth = Int32Array.from(model.kinds, (kind) => kind.width);
  const kindTurn = Uint8Array.from(model.kinds, (kind) => (kind.turn ? 1 : 0));
  const sheetLength = Int32Array.from(model.sheets, (sheet) => sheet.length);
  const sheetWidth = Int32Array.from(model.sheets, (sheet) => sheet.width);
  /** Scales worth so that a whole largest sheet is 1. */
  const unit = 1 / worth(Math.max(...model.sheets.map((sheet) => sheet.length * sheet.width)));

  const parent = new Int32Array(nodes).fill(-1);
  const first = new Int32Array(nodes).fill(-1);
  const next = new Int32Array(nodes).fill(-1);
  const previous = new Int32Array(nodes).fill(-1);
  const axis = new Uint8Array(nodes);
  const turned = new Uint8Array(parts);
  const sizeX = new Int32Array(nodes);
  const sizeY = new Int32Array(nodes);
  const givenX = new Int32Array(nodes);
  const givenY = new Int32Array(nodes);
  const mostX = new Int32Array(nodes);
  const mostY = new Int32Array(nodes);
  const free = new Int32Array(nodes);
  let freeCount = 0;
  for (let node = nodes - 1; node >= parts; node--) free[freeCount++] = node;

  const root = new Int32Array(slots).fill(-1);
  const stock = new Int32Array(slots).fill(-1);
  const slotOf = new Int32Array(nodes).fill(-1);
  const used = new Float64Array(slots);
  const left = new Float64Array(slots);
  const widest = new Int32Array(slots);
  const tallest = new Int32Array(slots);
  const places: Int32Array[] = Array.from({ length: slots }, () => NONE);
  const placeCount = new Int32Array(slots);
  const members: Int32Array[] = Array.from({ length: slots }, () => NONE);
  const memberCount = new Int32Array(slots);

  // What refresh works on; it is one pass over one sheet.
  let slotNow = 0;
  let worthNow = 0;
  let areaNow = 0;
  let placesNow: Int32Array = new Int32Array(0);
  let placeNow = 0;
  let membersNow: Int32Array = new Int32Array(0);
  let memberNow = 0;

  const place = (mostx: number, mosty: number, x: number, y: number, host: number, how: number): void => {
    if (mostx <= 0 || mosty <= 0) return;
    if (placeNow * STRIDE + STRIDE > placesNow.length) {
      const wider = new Int32Array(Math.max(STRIDE * 8, placesNow.length * 2));
      wider.set(placesNow);
      placesNow = places[slotNow] = wider;
    }
    const at = placeNow * STRIDE;
    placesNow[at] = mostx;
    placesNow[at + 1] = mosty;
    placesNow[at + 2] = x;
    placesNow[at + 3] = y;
    placesNow[at + 4] = host;
    placesNow[at + 5] = how;
    placeNow++;
    if (mostx > widest[slotNow]!) widest[slotNow] = mostx;
    if (mosty > tallest[slotNow]!) tallest[slotNow] = mosty;
  };

  // Children of one row by their size across, for groups. Rows are short.
  const sorted = new Int32Array(parts + 1);
  const sortChildren = (row: number): number => {
    let count = 0;
    const across = axis[row] === 0 ? sizeY : sizeX;
    for (let child = first[row]!; child >= 0; child = next[child]!) {
      let at = count++;
      const size = across[child]!;
      while (
        at > 0 &&
        (across[sorted[at - 1]!]! > size || (across[sorted[at - 1]!] === size && sorted[at - 1]! > child))
      ) {
        sorted[at] = sorted[at - 1]!;
        at--;
      }
      sorted[at] = child;
    }
    return count;
  };
  const groups = (row: number): void => {
    let children = 0;
    for (let child = first[row]!; child >= 0 && children <= MOST_GROUPED; child = next[child]!) children++;
    if (children < 3 || children > MOST_GROUPED) return;
    const count = sortChildren(row);
    const along = axis[row] === 0 ? sizeX : sizeY;
    const across = axis[row] === 0 ? sizeY : sizeX;
    let length = along[sorted[0]!]!;
    for (let k = 2; k < count; k++) {
      const last = sorted[k - 1]!;
      length += along[last]!;
      if (across[sorted[k]!] === across[last]) continue;
      if (axis[row] === 0)
        place(
          mostX[row]! - sizeX[row]! + length,
          mostY[row]! - across[last]!,
          length,
          givenY[row]! - across[last]!,
          row,
          GROUP | 1 | (k << 3),
        );
      else
        place(
          mostX[row]! - across[last]!,
          mostY[row]! - sizeY[row]! + length,
          givenX[row]! - across[last]!,
          length,
          row,
          GROUP | (k << 3),
        );
    }
  };

  const measure = (node: number): void => {
    if (node < parts) return;
    let along = 0;
    let across = 0;
    if (axis[node] === 0) {
      for (let child = first[node]!; child >= 0; child = next[child]!) {
        measure(child);
        along += sizeX[child]!;
        if (sizeY[child]! > across) across = sizeY[child]!;
      }
      sizeX[node] = along;
      sizeY[node] = across;
    } else {
      for (let child = first[node]!; child >= 0; child = next[child]!) {
        measure(child);
        along += sizeY[child]!;
        if (sizeX[child]! > across) across = sizeX[child]!;
      }
      sizeX[node] = across;
      sizeY[node] = along;
    }
  };

  const spread = (node: number): void => {
    if (memberNow >= membersNow.length) {
      const wider = new Int32Array(Math.max(8, membersNow.length * 2));
      wider.set(membersNow);
      membersNow = members[slotNow] = wider;
    }
    membersNow[memberNow++] = node;
    slotOf[node] = slotNow;
    const x = sizeX[node]!;
    const y = sizeY[node]!;
    const gx = givenX[node]!;
    const gy = givenY[node]!;
    const mx = mostX[node]!;
    const my = mostY[node]!;
    if (node < parts) {
      areaNow += x * y;
      worthNow += worth(gx * gy - x * y);
      const up = parent[node]!;
      if (up < 0 || axis[up] === 0) place(mx, my - y, x, gy - y, node, BESIDE | 1);
      if (up < 0 || axis[up] === 1) place(mx - x, my, gx - x, y, node, BESIDE);
      return;
    }
    if (axis[node] === 0) {
      worthNow += worth((gx - x) * gy);
      place(mx - x, my, gx - x, gy, node, APPEND);
      for (let child = first[node]!; child >= 0; child = next[child]!) {
        givenX[child] = sizeX[child]!;
        givenY[child] = gy;
        mostX[child] = mx - x + sizeX[child]!;
        mostY[child] = my;
        spread(child);
      }
      groups(node);
    } else {
      worthNow += worth((gy - y) * gx);
      place(mx, my - y, gx, gy - y, node, APPEND | 1);
      for (let child = first[node]!; child >= 0; child = next[child]!) {
        givenX[child] = gx;
        givenY[child] = sizeY[child]!;
        mostX[child] = mx;
        mostY[child] = my - y + sizeY[child]!;
        spread(child);
      }
      groups(node);
    }
  };

  /** Works out sizes, rooms and places of one sheet anew. */
  const refresh = (slot: number): void => {
    slotNow = slot;
    worthNow = 0;
    areaNow = 0;
    placesNow = places[slot]!;
    placeNow = 0;
    membersNow = members[slot]!;
    memberNow = 0;
    widest[slot] = 0;
    tallest[slot] = 0;
    const top = root[slot]!;
    if (top >= 0) {
      measure(top);
      const x = sheetLength[stock[slot]!]!;
      const y = sheetWidth[stock[slot]!]!;
      givenX[top] = x;
      givenY[top] = y;
      mostX[top] = x;
      mostY[top] = y;
      spread(top);
      // Across the whole: the other choice of the first cut.
      if (top >= parts) {
        if (axis[top] === 0) place(x, y - sizeY[top]!, x, y - sizeY[top]!, top, BESIDE | 1);
        else place(x - sizeX[top]!, y, x - sizeX[top]!, y, top, BESIDE);
      }
    }
    placeCount[slot] = placeNow;
    memberCount[slot] = memberNow;
    used[slot] = areaNow;
    left[slot] = worthNow * unit;
  };

  /** What growing `node` by `need` along `way` takes from the leftovers of the rows above it. */
  const growth = (node: number, way: number, need: number): number => {
    let loss = 0;
    for (let up = parent[node]!; up >= 0 && need > 0; up = parent[up]!) {
      if (axis[up] !== way) continue;
      const slack = way === 0 ? givenX[up]! - sizeX[up]! : givenY[up]! - sizeY[up]!;
      const across = way === 0 ? givenY[up]! : givenX[up]!;
      if (slack > 0) loss += worth(slack * across) - (slack > need ? worth((slack - need) * across) : 0);
      need -= slack;
    }
    return loss;
  };

  // The best place found by the last call of bestPlace.
  let foundHost = -1;
  let foundHow = 0;
  let foundTurn = 0;

  /**
   * The place on this sheet where the part loses the least worth of leftovers, if below `bar`. `blink` in 0 … 1 is the chance
   * to overlook a place (Christiaens & Vanden Berghe, "Slack induction by string removals", Transportation Science 54, 2020).
   */
  const bestPlace = (slot: number, kind: number, bar: number, blink: number, chance: () => number): number => {
    let best = bar;
    const list = places[slot]!;
    const end = placeCount[slot]! * STRIDE;
    const turns = kindTurn[kind]!;
    for (let turn = 0; turn <= turns; turn++) {
      const l = turn === 0 ? kindLength[kind]! : kindWidth[kind]!;
      const w = turn === 0 ? kindWidth[kind]! : kindLength[kind]!;
      if (l > widest[slot]! || w > tallest[slot]!) continue;
      for (let at = 0; at < end; at += STRIDE) {
        if (l > list[at]! || w > list[at + 1]!) continue;
        if (blink > 0 && chance() < blink) continue;
        let x = list[at + 2]!;
        let y = list[at + 3]!;
        let loss = worth(x * y);
        if (l > x || w > y) {
          const host = list[at + 4]!;
          if (l > x) {
            loss += growth(host, 0, l - x);
            x = l;
          }
          if (w > y) {
            loss += growth(host, 1, w - y);
            y = w;
          }
        }
        const one = worth((x - l) * y) + worth(l * (y - w));
        const other = worth(x * (y - w)) + worth((x - l) * w);
        loss -= Math.max(one, other);
        loss = loss * unit;
        if (loss < best) {
          best = loss;
          foundHost = list[at + 4]!;
          foundHow = list[at + 5]!;
          foundTurn = turn;
        }
      }
    }
    return best;
  };

  /** What putting the part alone on a bare sheet of this stock loses, or infinity. Sets the turn for `open`. */
  const bareLoss = (sheet: number, kind: number): number => {
    let best = Number.POSITIVE_INFINITY;
    const x = sheetLength[sheet]!;
    const y = sheetWidth[sheet]!;
    for (let turn = 0; turn <= kindTurn[kind]!; turn++) {
      const l = turn === 0 ? kindLength[kind]! : kindWidth[kind]!;
      const w = turn === 0 ? kindWidth[kind]! : kindLength[kind]!;
      if (l > x || w > y) continue;
      const one = worth((x - l) * y) + worth(l * (y - w));
      const other = worth(x * (y - w)) + worth((x - l) * w);
      const loss = (worth(x * y) - Math.max(one, other)) * unit;
      if (loss < best) {
        best = loss;
        foundTurn = turn;
      }
    }
    return best;
  };

  const lay = (part: number, turn: number): void => {
    const kind = kindOf[part]!;
    turned[part] = turn;
    sizeX[part] = turn === 0 ? kindLength[kind]! : kindWidth[kind]!;
    sizeY[part] = turn === 0 ? kindWidth[kind]! : kindLength[kind]!;
  };

  const append = (host: number, child: number): void => {
    parent[child] = host;
    previous[child] = -1;
    const head = first[host]!;
    next[child] = head;
    if (head >= 0) previous[head] = child;
    first[host] = child;
  };

  const unlink = (node: number): void => {
    const up = parent[node]!;
    const before = previous[node]!;
    const after = next[node]!;
    if (before >= 0) next[before] = after;
    else if (up >= 0) first[up] = after;
    if (after >= 0) previous[after] = before;
    parent[node] = -1;
    next[node] = -1;
    previous[node] = -1;
  };

  const swapIn = (old: number, fresh: number, slot: number): void => {
    const up = parent[old]!;
    const before = previous[old]!;
    const after = next[old]!;
    parent[fresh] = up;
    previous[fresh] = before;
    next[fresh] = after;
    if (before >= 0) next[before] = fresh;
    else if (up >= 0) first[up] = fresh;
    else root[slot] = fresh;
    if (after >= 0) previous[after] = fresh;
    parent[old] = -1;
    next[old] = -1;
    previous[old] = -1;
  };

  const newNode = (way: number): number => {
    const node = free[--freeCount]!;
    axis[node] = way;
    first[node] = -1;
    return node;
  };

  /** Puts the part where the last bestPlace on this sheet found room. */
  const insert = (slot: number, part: number, host: number, how: number, turn: number): void => {
    lay(part, turn);
    if ((how & GROUP) !== 0) {
      sortChildren(host);
      const outer = newNode(how & 1);
      const inner = newNode(axis[host]!);
      for (let k = (how >> 3) - 1; k >= 0; k--) {
        const child = sorted[k]!;
        unlink(child);
        append(inner, child);
      }
      append(outer, inner);
      append(outer, part);
      append(host, outer);
    } else if ((how & BESIDE) === 0) append(host, part);
    else {
      const row = newNode(how & 1);
      swapIn(host, row, slot);
      append(row, host);
      append(row, part);
    }
    refresh(slot);
  };

  /** Starts a sheet with one part on it. */
  const open = (slot: number, sheet: number, part: number, turn: number): void => {
    lay(part, turn);
    stock[slot] = sheet;
    root[slot] = part;
    parent[part] = -1;
    next[part] = -1;
    previous[part] = -1;
    refresh(slot);
  };

  const release = (row: number): void => {
    slotOf[row] = -1;
    free[freeCount++] = row;
  };

  /** A row with one child is no row. */
  const tidy = (row: number, slot: number): void => {
    const only = first[row]!;
    if (only >= 0 && next[only]! >= 0) return;
    if (only < 0) {
      // Cannot happen while rows hold two or more; kept for whole-row removal.
      const up = parent[row]!;
      unlink(row);
      if (up < 0) root[slot] = -1;
      release(row);
      if (up >= 0) tidy(up, slot);
      return;
    }
    unlink(only);
    const up = parent[row]!;
    if (only >= parts || up < 0) {
      if (up < 0) swapIn(row, only, slot);
      else {
        // The child lies along the same way as the row above: its children join that row.
        unlink(row);
        let child = first[only]!;
        while (child >= 0) {
          const following = next[child]!;
          append(up, child);
          child = following;
        }
        release(only);
      }
    } else swapIn(row, only, slot);
    release(row);
  };

  /** Takes a node and all below it away; its parts are pushed on `out`. Call refresh afterwards. */
  const remove = (node: number, slot: number, out: Int32Array, count: number): number => {
    const up = parent[node]!;
    unlink(node);
    if (up < 0) root[slot] = -1;
    const added = dismantle(node, out, count);
    if (up >= 0) tidy(up, slot);
    return added;
  };

  const dismantle = (node: number, out: Int32Array, count: number): number => {
    if (node < parts) {
      parent[node] = -1;
      next[node] = -1;
      previous[node] = -1;
      slotOf[node] = -1;
      out[count] = node;
      return count + 1;
    }
    let child = first[node]!;
    while (child >= 0) {
      const following = next[child]!;
      count = dismantle(child, out, count);
      child = following;
    }
    first[node] = -1;
    parent[node] = -1;
    next[node] = -1;
    previous[node] = -1;
    slotOf[node] = -1;
    free[freeCount++] = node;
    return count;
  };

  /** The tree of a sheet as numbers, in preorder: a part 2·part + turn, a row −1 − (2·children + axis). */
  const write = (slot: number, out: Int32Array, at: number): number =>
    root[slot]! < 0 ? at : writeNode(root[slot]!, out, at);
  const writeNode = (node: number, out: Int32Array, at: number): number => {
    if (node < parts) {
      out[at] = node * 2 + turned[node]!;
      return at + 1;
    }
    let children = 0;
    let here = at + 1;
    let child = first[node]!;
    // Children are prepended when read back, so write them last first to keep their order.
    while (child >= 0 && next[child]! >= 0) child = next[child]!;
    for (; child >= 0; child = previous[child]!) {
      here = writeNode(child, out, here);
      children++;
    }
    out[at] = -1 - (children * 2 + axis[node]!);
    return here;
  };

  let readAt = 0;
  const readNode = (from: Int32Array): number => {
    const code = from[readAt++]!;
    if (code >= 0) {
      const part = code >> 1;
      lay(part, code & 1);
      parent[part] = -1;
      next[part] = -1;
      previous[part] = -1;
      return part;
    }
    const what = -1 - code;
    const row = newNode(what & 1);
    parent[row] = -1;
    next[row] = -1;
    previous[row] = -1;
    for (let left = what >> 1; left > 0; left--) append(row, readNode(from));
    return row;
  };

  /** Frees the rows of a sheet without touching its parts: they are about to be read back elsewhere. */
  const dropRows = (node: number): void => {
    if (node < parts) return;
    let child = first[node]!;
    while (child >= 0) {
      const following = next[child]!;
      dropRows(child);
      child = following;
    }
    first[node] = -1;
    free[freeCount++] = node;
  };
  const clear = (slot: number): void => {
    if (root[slot]! >= 0) dropRows(root[slot]!);
    root[slot] = -1;
  };
  /** Puts a written tree on a cleared sheet. */
  const read = (slot: number, sheet: number, from: Int32Array, at: number, end: number): void => {
    stock[slot] = sheet;
    readAt = at;
    root[slot] = at === end ? -1 : readNode(from);
    refresh(slot);
  };

  return {
    parts,
    kindOf,
    root,
    stock,
    slotOf,
    used,
    left,
    members,
    memberCount,
    parent,
    axis,
    bestPlace,
    bareLoss,
    found: () => foundHost,
    foundHow: () => foundHow,
    foundTurn: () => foundTurn,
    insert,
    open,
    remove,
    refresh,
    write,
    read,
    clear,
  };
}
