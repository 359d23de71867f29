import { useRef } from 'preact/compat';
import { type Edit, lookUp, type Path, type PlainValue } from '../core/plan/index.ts';
import type { BayOpening } from '../core/scene/index.ts';
import { type Found, set } from './arrange.ts';
import { editsOf, putNumber, SIZE } from './asked/asked.ts';
import {
  bayAround,
  bayNumber,
  bayPath,
  divideEdits,
  dropEdits,
  type Fill,
  fillEdits,
  fillOf,
  fixedIn,
  isOpenInRows,
  joinEdits,
} from './bays.ts';
import { change, useBench } from './bench.ts';
import { Choice, Field } from './field.tsx';

const COUNTS = [0, 1, 2, 3, 4, 5, 6, 7, 8];
const counted = (from: number) => COUNTS.slice(from).map((n) => [String(n), String(n)] as const);

/** What a bay of the selected case holds, and how it is divided. */
export default function BayForm({ found }: { readonly found: Found }) {
  const selected = useBench((b) => b.selected);
  const plain = useBench((b) => b.plain);
  // an inside that is not divided is its own first bay
  const bays = (found.placed?.bays ?? []).filter((b) => b.kind === 'divided' || bayNumber(b.id) !== '');
  const bay = bays.find((b) => b.id === selected) ?? (bays.length === 1 ? bays[0] : undefined);
  const path = bay && plain !== undefined ? bayPath(plain, found.path, bay.id) : undefined;
  const here = path && plain !== undefined ? lookUp(plain, path) : undefined;
  const around = bay && bays.find((b) => b.id === bayAround(bay.id));
  const own = useRef<HTMLElement>(null);
  // what was pressed may have gone with what it did
  const refocus = () =>
    requestAnimationFrame(() => {
      if (document.activeElement === document.body) own.current?.querySelector('select')?.focus();
    });
  const make: Make = (title, edits) => {
    change(title, edits);
    refocus();
  };
  const pick = (id: string): void => {
    useBench.setState({ selected: id || undefined });
    refocus();
  };
  return (
    <section aria-labelledby="bay-title" className="bay-form" ref={own}>
      <h3 id="bay-title">Bays</h3>
      <Choice
        name="Bay"
        value={bay?.id ?? ''}
        of={[
          ['', bays.length === 0 ? 'none' : 'pick one'],
          ...bays.map(
            (b) => [b.id, [bayNumber(b.id) || 'all of it', b.title, `(${b.kind})`].filter(Boolean).join(' ')] as const,
          ),
        ]}
        onChange={pick}
      />
      {bay && path && plain !== undefined && (
        <>
          <div className="fields" key={bay.id}>
            <Held bay={bay} path={path} here={here} plain={plain} make={make} />
            <ClearSize path={path} here={here} />
            <Gear bay={bay} path={path} here={here} make={make} />
            {path.at(-2) !== 'open' && path.at(-1) !== 'inside' && (
              <Field name="name of the bay" path={[...path, 'name']} shown={bay.title ?? ''} />
            )}
          </div>
          <div className="buttons">
            {fillOf(here).divided ? (
              <button type="button" onClick={() => make('Bay made one', joinEdits(plain, path))}>
                Make it one bay
              </button>
            ) : (
              <>
                <button
                  type="button"
                  onClick={() => make('Bay divided by an upright', divideEdits(plain, path, 'columns', 2))}
                >
                  Upright in it
                </button>
                <button
                  type="button"
                  onClick={() => make('Bay divided by a shelf', divideEdits(plain, path, 'rows', 2))}
                >
                  Shelf across it
                </button>
              </>
            )}
            {around && (
              <>
                <button type="button" onClick={() => make('Bay taken out', dropEdits(plain, path))}>
                  Take the bay out
                </button>
                <button type="button" onClick={() => pick(around.id)}>
                  The bay round it
                </button>
              </>
            )}
          </div>
        </>
      )}
    </section>
  );
}

type Make = (title: string, edits: readonly Edit[]) => void;
/** One bay: where it is written, what is written there, and what to make of it. */
interface InPlan {
  readonly path: Path;
  readonly here: PlainValue | undefined;
}
interface OfBay extends InPlan {
  readonly bay: BayOpening;
  readonly make: Make;
}

/** Doors, drawers or nothing before it, and shelves in it. */
function Held({ bay, path, here, plain, make }: OfBay & { readonly plain: PlainValue }) {
  const { fill, divided } = fillOf(here);
  const put = (next: Fill): void => make(`Bay: ${wordsOf(next)}`, fillEdits(plain, path, next));
  return (
    <>
      {bay.kind !== 'divided' && (
        <Choice
          name="Holds"
          value={fill.kind}
          of={[
            ['open', 'open'],
            ['door', 'a door'],
            ['drawers', 'drawers'],
          ]}
          onChange={(kind) => put(startOf(kind, fill, fixedIn(here)))}
        />
      )}
      {fill.kind === 'door' && (
        <Choice
          name="Hinged"
          value={fill.door}
          of={[
            ['left', 'left'],
            ['right', 'right'],
            ['pair', 'a pair'],
            ['up', 'opens up'],
            ['down', 'opens down'],
          ]}
          onChange={(door) => put({ ...fill, door })}
        />
      )}
      {fill.kind !== 'drawers' && !divided && !isOpenInRows(here) && (
        <Choice
          name="Loose shelves"
          value={String(fill.shelves)}
          of={counted(0)}
          onChange={(n) => put({ ...fill, shelves: Number(n) })}
        />
      )}
      {fill.kind === 'open' && !divided && (
        <Choice
          name="Fixed shelves"
          value={String(fill.fixed)}
          of={counted(0)}
          onChange={(n) => put({ ...fill, fixed: Number(n) })}
        />
      )}
      {fill.kind === 'drawers' && (
        <Choice
          name="Drawers"
          value={String(fill.drawers)}
          of={counted(1)}
          onChange={(n) => put({ kind: 'drawers', drawers: Number(n) })}
        />
      )}
    </>
  );
}

const SHARED: Readonly<Record<string, 'width' | 'height'>> = { columns: 'width', rows: 'height' };
/** Of a bay among others: the width of a column, the height of a row. */
function ClearSize({ path, here }: InPlan) {
  const units = useBench((b) => b.plan?.units);
  const [size, said] = sizeHere(here);
  const key = said ?? SHARED[`${path.at(-2)}`];
  if (key === undefined || path.at(-2) === 'open') return null;
  return (
    <Field
      name={`clear ${key}`}
      path={[...path, key]}
      shown={size}
      hint="a share of the rest"
      {...(units && { units })}
    />
  );
}

/** What warms it, and what lets the warmth out. */
function Gear({ bay, path, here, make }: OfBay) {
  const { fill } = fillOf(here);
  const takes = path.at(-2) !== 'open' && bay.kind !== 'divided';
  return (
    <>
      {takes && (
        <Field name="gear in it draws, W" path={[...path, 'heat']} shown={heatOf(here)} hint="0" edits={putNumber} />
      )}
      {takes && fill.kind !== 'drawers' && (
        <Field
          name="two vents, each"
          path={[...path, 'vent']}
          shown={ventOf(here)}
          hint="none, or width × height"
          edits={ventEdits}
        />
      )}
      {ventOf(here) !== '' && fill.kind === 'door' && (
        <Choice
          name="vents, cut out of"
          value={ventedIn(here)}
          of={[
            ['back', 'the back'],
            ['door', 'the door'],
          ]}
          onChange={(where) => make(`Vents in the ${where}`, [set([...path, 'vent', 'in'], where)])}
        />
      )}
    </>
  );
}

function startOf(kind: Fill['kind'], before: Fill, fixed: number): Fill {
  const shelves = before.kind === 'drawers' ? 0 : before.shelves;
  if (kind === 'drawers') return { kind, drawers: 3 };
  return kind === 'door' ? { kind, door: 'left', shelves } : { kind, shelves, fixed };
}
function wordsOf(fill: Fill): string {
  if (fill.kind === 'drawers') return `${fill.drawers} drawers`;
  return fill.kind === 'door' ? `door ${fill.door}` : 'open';
}
const heatOf = (bay: unknown): string => `${(bay as { readonly heat?: number } | undefined)?.heat ?? ''}`;
interface Vent {
  readonly width?: unknown;
  readonly height?: unknown;
  readonly in?: string;
}
const ventIn = (bay: unknown): Vent | undefined => (bay as { readonly vent?: Vent } | undefined)?.vent;
const ventOf = (bay: unknown): string => {
  const vent = ventIn(bay);
  return vent ? `${vent.width} × ${vent.height}` : '';
};
const ventedIn = (bay: unknown): string => ventIn(bay)?.in ?? 'back';
/** What they are cut out of stays. */
function ventEdits(text: string, path: Path): readonly Edit[] {
  const had = lookUp(useBench.getState().plain ?? null, [...path, 'in']);
  return editsOf(SIZE)(text, path).map((edit) =>
    edit.op === 'set' && had !== undefined ? { ...edit, value: { ...(edit.value as object), in: had } } : edit,
  );
}
function sizeHere(bay: unknown): readonly [string, 'width' | 'height' | undefined] {
  if (typeof bay === 'object' && bay !== null)
    for (const key of ['width', 'height'] as const)
      if (key in bay) return [String((bay as Record<string, unknown>)[key]), key];
  return ['', undefined];
}
