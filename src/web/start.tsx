import { type FormEvent, useLayoutEffect, useRef, useState } from 'preact/compat';
import { explainThere, type Issue } from '../core/issue/index.ts';
import { printersFor, readersFor } from '../core/plan/index.ts';
import { type LengthUnit, type Mm, mm } from '../core/quantity/index.ts';
import {
  type Answers,
  type Framing,
  leastOf,
  mostOf,
  NEEDS,
  type Need,
  starterPlan,
  usualOf,
} from '../core/starter/index.ts';
import { bareLength } from './bare-length.ts';
import { useBench } from './bench.ts';
import { Entry } from './entry.tsx';
import { Choice } from './field.tsx';
import { fileName } from './file-name.ts';
import { PlanList } from './plan-list.tsx';
import { toDrawing } from './to-drawing.ts';
import { newPlan, useDesk } from './workspace.ts';

const UNITS: readonly (readonly [LengthUnit, string])[] = [
  ['ft-in', 'feet and inches'],
  ['in', 'inches'],
  ['mm', 'millimetres'],
  ['cm', 'centimetres'],
  ['m', 'metres'],
];
const FRAMINGS: readonly (readonly [Framing, string])[] = [
  ['timber stud', 'timber studs behind board'],
  ['steel stud', 'steel studs behind board'],
  ['masonry', 'brick, block or concrete'],
  ['unknown', 'not known yet'],
];
const NEED_WORDS: Readonly<Record<Need, string>> = {
  books: 'books or scores, in open bays',
  drawers: 'small things, in drawers',
  doors: 'what is put away, behind doors',
  gear: 'gear that wants air',
  shelves: 'floating shelves above',
  display: 'a screen on the wall',
};
const CURRENCIES = ['USD', 'EUR', 'GBP', 'CAD', 'AUD', 'CHF', 'SEK', 'JPY'];
/** The answers as they are typed. */
interface Typed {
  readonly title: string;
  readonly length: LengthUnit;
  /** Left out until it is chosen: as those who measure so mostly pay. */
  readonly currency?: string;
  readonly framing: Answers['framing'];
  readonly fits: readonly Need[];
  readonly typed: Partial<Record<Size, string>>;
}
const USUALLY: Typed = {
  title: 'My room',
  length: 'ft-in',
  framing: usualOf('ft-in').framing,
  fits: usualOf('ft-in').fits,
  typed: {},
};
const PLACE = 'setwright:questions';
/** Kept by the browser for this tab, so that a page that is loaded again has them; where it keeps nothing, for as long as the page stands. */
function useKept(): readonly [Typed, (change: Partial<Typed>) => void] {
  const [now, setNow] = useState<Typed>(() => {
    try {
      return { ...USUALLY, ...JSON.parse(sessionStorage.getItem(PLACE) ?? '{}') };
    } catch {
      return USUALLY;
    }
  });
  const answer = (change: Partial<Typed>): void => {
    const next = { ...now, ...change };
    setNow(next);
    try {
      sessionStorage.setItem(PLACE, JSON.stringify(next));
    } catch {
      // no room, or forbidden
    }
  };
  return [now, answer];
}
function forget(): void {
  try {
    sessionStorage.removeItem(PLACE);
  } catch {
    // nothing was kept
  }
}

const SIZES = [
  ['wall', 'How long is the wall?'],
  ['ceiling', 'How high is the ceiling?'],
  ['room', 'How far back does the room go?'],
] as const;
type Size = (typeof SIZES)[number][0];

/** The sizes as they were typed, and what is wrong with any of them. */
function sizesOf(
  typed: Readonly<Record<Size, string>>,
  units: Pick<Answers, 'length' | 'currency'>,
): { readonly sizes: Readonly<Record<Size, Mm>>; readonly faults: Partial<Record<Size, Issue>> } {
  const read = readersFor(units).length;
  const print = printersFor(units);
  const faults: Partial<Record<Size, Issue>> = {};
  const sizes = { wall: mm(0), ceiling: mm(0), room: mm(0) };
  for (const [key] of SIZES) {
    const result = read(typed[key]);
    if (!result.ok) {
      faults[key] = result.issues[0]!;
      continue;
    }
    const [least, most] = [leastOf(units.length)[key], mostOf(units.length)[key]];
    // a bare number may have been meant in another unit
    const said = (how: string, expected: string): Issue => ({
      path: [],
      message: `${print.length(mm(result.value))} is too ${how} for a room`,
      expected,
    });
    if (result.value < least) faults[key] = said('small', `at least ${print.notLess(least)}`);
    else if (result.value > most) faults[key] = said('large', `at most ${print.notMore(most)}`);
    else sizes[key] = mm(result.value);
  }
  return { sizes, faults };
}

/** The empty bench: a few questions, and there is a plan to work on. */
export default function Start({ why }: { readonly why: string }) {
  const { plans } = useDesk();
  const [{ title, length, currency: chosen, framing, fits, typed }, answer] = useKept();
  const [wrong, setWrong] = useState<Partial<Record<string, Issue>>>({});
  const [refused, setRefused] = useState('');
  const main = useRef<HTMLElement>(null);
  // who asked for another plan goes on here: what was pressed for it is gone
  useLayoutEffect(() => {
    if (useBench.getState().name !== '') main.current?.querySelector('input')?.focus();
  }, []);
  // who opens a folder of plans mostly comes for one of them; who asked for another plan does not
  const [listFirst] = useState(useBench.getState().name === '');
  const usual = usualOf(length);
  const currency = chosen ?? usual.currency;

  const make = async (event: FormEvent) => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const { sizes, faults } = sizesOf({ ...usual, ...typed }, { length, currency });
    setWrong(faults);
    if (Object.keys(faults).length > 0) {
      requestAnimationFrame(() => form.querySelector<HTMLElement>('[aria-invalid]')?.focus());
      return;
    }
    const called = title.trim() || 'My room';
    const name = fileName(
      called,
      plans.map((p) => p.name),
    );
    const fault = await newPlan(name, starterPlan({ title: called, length, currency, ...sizes, framing, fits }));
    setRefused(fault ?? '');
    if (fault !== undefined) return;
    forget();
    toDrawing();
  };

  const opens = plans.length > 0 && (
    <section aria-labelledby="open-title">
      <h2 id="open-title">{listFirst ? 'Open a plan' : 'Or open a plan'}</h2>
      <PlanList onDone={toDrawing} />
    </section>
  );
  return (
    <main className="empty start" data-ready ref={main}>
      <h1>Setwright</h1>
      {why !== '' && <p role="status">{why}</p>}
      {listFirst && opens}
      {listFirst && opens && <h2 className="or-new">Or begin a new one</h2>}
      <p>A few questions, and there is a first plan to work on. All of it can be changed later.</p>
      <form onSubmit={(e) => void make(e)} noValidate>
        <div className="fields">
          <Entry
            name="What is it called?"
            value={title}
            maxLength={80}
            onChange={(value) => answer({ title: value })}
          />
          <Choice
            name="Lengths in"
            value={length}
            of={UNITS}
            onChange={(value) => {
              answer({ length: value });
              // what was said of a size was said in the other units
              setWrong({});
            }}
          />
          {SIZES.map(([key, words]) => (
            <Entry
              key={key}
              name={words}
              value={typed[key] ?? usual[key]}
              wrong={wrong[key] && explainThere(wrong[key])}
              read={bareLength({ length, currency }, typed[key] ?? '')}
              onChange={(value) => answer({ typed: { ...typed, [key]: value } })}
            />
          ))}
          <Choice
            name="What is the wall made of?"
            value={framing}
            of={FRAMINGS}
            onChange={(value) => answer({ framing: value })}
          />
          <Choice
            name="Money in"
            value={currency}
            of={CURRENCIES.map((c) => [c, c] as const)}
            onChange={(value) => answer({ currency: value })}
          />
        </div>
        <fieldset>
          <legend>What must fit?</legend>
          {NEEDS.map((need) => (
            <label key={need} className="tick">
              <input
                type="checkbox"
                checked={fits.includes(need)}
                onChange={(e) =>
                  answer({ fits: e.currentTarget.checked ? [...fits, need] : fits.filter((f) => f !== need) })
                }
              />
              {NEED_WORDS[need]}
            </label>
          ))}
        </fieldset>
        <button type="submit" className="primary">
          Draw the first plan
        </button>
        {refused !== '' && <p role="alert">{refused}</p>}
      </form>
      {!listFirst && opens}
    </main>
  );
}
