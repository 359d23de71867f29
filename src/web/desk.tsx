import { type ReactNode, useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'preact/compat';
import { drawLive, isLivePage, noSpots, type Page } from '../core/drawing/index.ts';
import { packetInput } from '../core/outcome.ts';
import { type Option, paperOf } from '../core/plan/index.ts';
import { unbroken } from '../core/quantity/index.ts';
import { optionOf, useBench } from './bench.ts';
import { askFor, useAnswers } from './cutting.ts';
import { loadFindings, useFindings } from './findings.ts';
import { firstPage, firstPages } from './first-pages.ts';
import { type Drawn, lies, look, useHand } from './hand.ts';
import { Keys } from './keys.tsx';
import { later, ONE_MOMENT } from './later.tsx';
import { Notes } from './notes.tsx';
import { askPage, countPages, dropCount, setFindingsOf, useRegister } from './register.ts';
import { RegisterNav, VIEWS } from './register-nav.tsx';
import { type Route, useRoute } from './route.ts';
import { Stage } from './stage.tsx';
import { Tally } from './tally.tsx';
import { today } from './today.ts';
import { type WorkedPlan, workHere } from './worked-plan.ts';
import { useDesk } from './workspace.ts';

const Issues = later(() => import('./issues.tsx'));
const Inspector = later(() => import('./inspector.tsx'));
const Menu = later(
  () => import('./menu.tsx'),
  null,
  <span className="heed">Printing and plans are not loaded yet</span>,
);
const GlanceLine = later(() => import('./glance.tsx'), null, null);
const ShutOut = later(() => import('./shut-out.tsx'), null, null);
const TakenAway = later(() => import('./taken-away.tsx'), null, null);
const Unread = later(() => import('./unread.tsx'), ONE_MOMENT);
const Views = later(() => import('./views.tsx'), ONE_MOMENT);

/** The plan worked out, as far as its cutting plans are known; those that are not are asked for. */
export function useWorked(): WorkedPlan | undefined {
  const plan = useBench((b) => b.plan);
  const optionId = useBench((b) => b.option);
  const against = useBench((b) => b.against);
  const route = useRoute();
  const sideBySide = route.to === 'view' && route.id === 'options';
  const dragging = useBench((b) => b.dragging);
  const answers = useAnswers((a) => a.revision);
  const found = useRegister((r) => r.found);
  const finish = useFindings((f) => f.finish);
  const beside = useHand((h) => h.beside);
  const drawn = useHand((h) => h.drawn);
  const lying = useRef<WorkedPlan>(undefined);
  // a new answer of the cutter changes what `work` finds
  const worked = useMemo(() => {
    const option = plan && optionOf(plan, optionId);
    if (!plan || !option) return undefined;
    if (beside && lying.current) return drawn ? underHand(lying.current, drawn) : lying.current;
    lying.current = { plan, ...workHere(plan, option) };
    return lying.current;
  }, [plan, optionId, answers, found, finish, beside, drawn]);
  useEffect(loadFindings, []);
  useEffect(() => {
    if (!worked || beside) return;
    // what stands beside it, or is held against it, has to be cut too
    const isShown = ({ id }: Option): boolean => sideBySide || id === against;
    const others = dragging ? [] : worked.plan.options.filter((o) => o !== worked.outcome.option && isShown(o));
    const all = [worked, ...others.map((other) => workHere(worked.plan, other))];
    askFor(
      all.flatMap((one) => one.waiting),
      all.flatMap((one) => one.unknown),
      !dragging,
    );
  }, [worked, dragging, beside, against, sideBySide]);
  return worked;
}

/** What is held, as the worker beside the page told it last. */
function underHand(lying: WorkedPlan, { pieces, standing, tally, notes }: Drawn): WorkedPlan {
  const { plan, outcome } = lying;
  const said = new Map(pieces);
  const option = { ...outcome.option, pieces: outcome.option.pieces.map((piece, i) => said.get(i) ?? piece) };
  const options = plan.options.map((one) => (one === outcome.option ? option : one));
  const stand = new Map(standing.map((piece) => [piece.id, piece]));
  // what stands still is the same piece: nothing follows from it anew
  const placed = outcome.pieces.map((piece) => {
    const now = stand.get(piece.id);
    return now ? { ...piece, ...now } : piece;
  });
  return {
    ...lying,
    plan: { ...plan, options },
    outcome: { ...outcome, plan: { ...plan, options }, option, pieces: placed, tally, notes },
  };
}

/** On a narrow screen one leaf of the desk lies open at a time. */
const LEAVES = [
  ['drawing', 'Drawing'],
  ['pages', 'Pages'],
  ['notes', 'Notes and sizes'],
] as const;
type Leaf = (typeof LEAVES)[number][0];

type Asked = readonly [unknown, unknown, readonly unknown[]];
const isSame = (a: Asked, b: Asked | undefined): boolean =>
  b !== undefined &&
  a[0] === b[0] &&
  a[1] === b[1] &&
  a[2].length === b[2].length &&
  a[2].every((x, i) => x === b[2][i]);

/** The register at one edge, the drawing in the middle, the tally along the top, notes and sizes in the margin. */
export function Desk({ route }: { readonly route: Route }) {
  const worked = useWorked();
  const beside = useHand((h) => h.beside);
  // what was just let go of is not worked out here yet
  const dragging = useBench((b) => b.dragging) || beside;
  const read = useBench((b) => b.issues);
  const [leaf, setLeaf] = useState<Leaf>('drawing');
  const counted = useRegister((r) => r.register);
  // which pages there are is told anew when the hand lets go
  const first = useMemo(() => worked && firstPages(worked.outcome), [beside || worked]);
  const last = useRef<Asked>(undefined);

  useEffect(() => {
    if (!worked?.whole || dragging || worked.unknown.length > 0) {
      dropCount();
      last.current = undefined;
      return;
    }
    const { plan, outcome } = worked;
    const asked: Asked = [plan, outcome.option, outcome.cuts.map((cut) => cut.answer)];
    // what only the packet itself brought (notes of light and sound) asks for nothing new
    if (isSame(asked, last.current)) return;
    last.current = asked;
    countPages(useBench.getState().text, outcome);
  }, [worked, dragging]);
  // going somewhere brings the drawing up, and begins at its top; what had the focus lies under it on a narrow screen
  const bringUp = useCallback(() => {
    setLeaf('drawing');
    const drawing = document.getElementById('drawing');
    drawing?.scrollTo(0, 0);
    const focused = document.activeElement;
    if (focused?.closest('.register, aside') && matchMedia('(max-width: 60rem)').matches) drawing?.focus();
  }, []);
  useEffect(bringUp, [route]);
  // a long form may have been scrolled down before: this begins at its top, from its first picture on
  useLayoutEffect(() => scrollTo(0, 0), []);

  if (!worked) return <Unread />;
  const { plan, outcome } = worked;
  // what cannot be read, and what can be read but not built
  const issues = read.length > 0 ? read : outcome.issues;
  const register = counted.length > 0 ? counted : first!;
  const wanted = route.to === 'page' ? route.id : '';
  const id = wanted !== '' ? wanted : firstPage(outcome, register);
  const wall = id.startsWith('elevation-') ? id.slice('elevation-'.length) : (plan.room.walls[0]?.id ?? '');
  const view = route.to === 'view' ? VIEWS.find((v) => v.id === route.id) : undefined;
  return (
    <div className="desk" data-ready data-leaf={leaf}>
      <button type="button" className="skip" onClick={() => document.getElementById('drawing')?.focus()}>
        To the drawing
      </button>
      <Tally
        plan={plan}
        worked={worked}
        menu={<Menu option={outcome.option.id} paper={paperOf(plan)} fault={issues[0]} />}
      />
      <RegisterNav register={register} route={route} page={id} counting={counted.length === 0} onFollow={bringUp} />
      <main id="drawing" tabIndex={-1} aria-label={view?.title ?? 'Drawing and messages'}>
        {issues.length > 0 && <Issues issues={issues} {...(read.length === 0 && { plan })} />}
        {view ? (
          <>
            <Views id={view.id} worked={worked} />
            <div className="foot">
              <Message />
              <Glance />
              <Keys />
            </div>
          </>
        ) : (
          <Drawing worked={worked} id={id} />
        )}
      </main>
      <aside aria-label="Notes and sizes">
        <Inspector outcome={outcome} wall={wall} />
        <Notes outcome={outcome} register={register} page={id} />
      </aside>
      <nav className="leaves" aria-label="What is shown">
        {LEAVES.map(([key, words]) => (
          <button key={key} type="button" aria-pressed={leaf === key} onClick={() => setLeaf(key)}>
            {words}
          </button>
        ))}
      </nav>
    </div>
  );
}

function Drawing({ worked, id }: { readonly worked: WorkedPlan; readonly id: string }): ReactNode {
  const counted = useRegister((r) => r.register);
  const far = useRegister((r) => r.sheet);
  const { outcome, plan } = worked;
  const live = isLivePage(id);
  const held = useBench((b) => b.dragging);
  const last = useRef<Page>(undefined);
  const spots = useRef(noSpots());
  const beside = useHand((h) => h.beside);
  const dragging = held || beside;
  const near = useMemo(() => {
    if (!live) return undefined;
    if (beside && last.current?.id === id) return last.current;
    // what is under the hand would slip away from it if the drawing moved
    const hold = dragging && last.current?.id === id ? last.current.view : undefined;
    if (!hold) spots.current = noSpots();
    return drawLive(
      packetInput(outcome, [], today()),
      { paper: paperOf(plan), spots: spots.current, ...(hold && { hold }) },
      counted.length > 0 ? counted : firstPages(outcome),
      id,
    );
  }, [live, beside || outcome, plan, counted, id, dragging]);
  last.current = near;
  useEffect(() => {
    look(near);
    return () => look(undefined);
  }, [near]);
  useEffect(() => {
    if (!live || dragging || !worked.whole || worked.unknown.length > 0) return;
    const { plain } = useBench.getState();
    const { option, cuts } = outcome;
    const cutting = cuts.map(({ job, answer }) => [job.problem, answer] as const);
    if (plain !== undefined)
      lies({
        plain,
        option: option.id,
        page: id,
        register: counted,
        found: setFindingsOf(option.id),
        today: today(),
        cutting,
      });
  }, [live, dragging, worked, counted, id]);
  // the register that was counted anew brings new pages with it
  useEffect(() => askPage(live ? '' : id), [live, id, counted]);
  const sheet = live ? near && { page: near } : far?.page.id === id ? far : undefined;
  const foot = (
    <>
      <Message />
      <Glance />
      <Keys />
    </>
  );
  if (sheet) return <Stage {...sheet} outcome={outcome} foot={foot} />;
  const known = live || counted.length > 0;
  return (
    <>
      <p className="gone">
        {known && !counted.some((entry) => entry.id === id)
          ? 'There is no such page in this option: pick one of its pages.'
          : 'Drawing the page …'}
      </p>
      <div className="foot">{foot}</div>
    </>
  );
}

/** Light and sound while something is held; what does so is loaded with the first hold. */
function Glance() {
  const held = useBench((b) => b.dragging);
  const wanted = useRef(false);
  wanted.current ||= held;
  return wanted.current ? <GlanceLine /> : null;
}

function Message() {
  const message = useBench((b) => b.message);
  const kept = useDesk((d) => d.kept);
  const readOnly = useDesk((d) => d.session?.readOnly ?? d.session?.forgetful);
  const reached = useDesk((d) => d.reached);
  const shut = useDesk((d) => d.shut);
  const gone = useDesk((d) => d.gone);
  const missing = useFindings((f) => f.missing);
  const busy = useAnswers((a) => a.busy);
  return (
    <p className="message" role="status">
      <span className={kept === 'not saved' ? 'heed' : undefined}>{KEPT[kept]}</span>
      {busy > 0 && <span>Looking for cheaper cutting …</span>}
      {shut && <ShutOut />}
      {!reached && !shut && (
        <span className="heed">The workbench is not reached: what you do is kept here until it is.</span>
      )}
      {missing && <span className="heed">Mouldings, notes and prices are not loaded yet.</span>}
      {gone ? <TakenAway /> : <span>{unbroken(message ?? readOnly ?? '')}</span>}
    </p>
  );
}
const KEPT = { saved: 'Saved', saving: 'Saving …', 'not saved': 'Not saved' } as const;
