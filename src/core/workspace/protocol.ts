import type { Issue } from '../issue/index.ts';
import type { Edit, PlainValue, Plan } from '../plan/index.ts';

/**
 * What the workbench's server and its pages say to one another. Everything is JSON over HTTP under `API`, except the exports (CSV,
 * YAML, PDF) and the stream of events.
 *
 * Every request that changes something carries `Content-Type: application/json` (where it has a body) and the header
 * `CLIENT_HEADER` with an id that the page made for itself; events name that id again, so that a page knows its own changes.
 * Names of plans stand in paths through `encodeURIComponent`. Instants are ISO 8601 in UTC, days are 2026-10-02.
 * Every refusal is a `Refusal`.
 *
 * | method and path | request | answer |
 * |---|---|---|
 * | GET /opening | | 200 `Opening`; 401 on a device that is not paired |
 * | GET /session | | 200 `Session`; 401 on a device that is not paired |
 * | POST /pair | `PairRequest` | 200 `Session` and the cookie; 401 `wrong-code`, 429 |
 * | POST /pair/code | | 200 `PairingCode`; only from this machine, only with `--lan` |
 * | GET /devices | | 200 `Devices` |
 * | DELETE /devices/ID | | 204 |
 * | GET /plans | | 200 `Plans` |
 * | POST /plans | `NewPlan` | 201 `PlanState`; 409 `exists`, 422 `not-a-plan` |
 * | GET /plans/NAME | | 200 `PlanState` |
 * | PUT /plans/NAME | `SaveRequest` | 200 `Saved`; 409 `Conflict`; 422, 403 `read-only`, 507 `disk-full` |
 * | GET /plans/NAME/export | | the file itself, to be downloaded |
 * | GET /plans/NAME/revisions?before=N&most=N | | 200 `Revisions`, newest first |
 * | GET /plans/NAME/revisions/N | | 200 `RevisionText` |
 * | POST /plans/NAME/restore | `RestoreRequest` | as PUT |
 * | GET /plans/NAME/packet.pdf?option&paper&labels&today&steps | | the same bytes as the command line's |
 * | GET /plans/NAME/rack.csv | | the rack as CSV |
 * | POST /plans/NAME/rack | `RackImport` | as PUT; 422 `bad-csv` |
 * | GET /plans/NAME/ticks?after=N | | 200 `Ticks` |
 * | POST /plans/NAME/ticks | `TickRequest` | 200 `Ticks`: those asked for, as they were recorded |
 * | GET /prices | | 200 `PriceBook` |
 * | POST /prices | `PriceRequest` | 200 `PriceBook` |
 * | POST /prices/import | `PriceImport` | 200 `PriceImported`; 422 `bad-csv`: all of it or nothing |
 * | GET /prices.csv | | every price and its date as CSV |
 * | PUT /suppliers | `Supplier` | 200 `PriceBook` |
 * | GET /events | header `Last-Event-ID` or ?after=ID; ?page=X, the page | `text/event-stream` of `LiveEvent`, one for each page |
 */
export const API = '/api/1';
export const CLIENT_HEADER = 'x-setwright-client';

// refusals

export type RefusalCode =
  | 'not-paired'
  | 'wrong-code'
  | 'forbidden'
  | 'bad-request'
  | 'bad-name'
  | 'not-found'
  | 'exists'
  | 'conflict'
  | 'not-a-plan'
  | 'bad-csv'
  | 'too-large'
  | 'too-many'
  | 'read-only'
  | 'disk-full'
  | 'no-folder'
  | 'cannot-be-built'
  | 'failed';

/** The body of every answer from 400 on. `message` is a whole sentence for a person. */
export interface Refusal {
  readonly error: {
    readonly code: RefusalCode;
    readonly message: string;
    readonly issues?: readonly Issue[];
    /** Seconds until it is worth asking again. */
    readonly retryAfter?: number;
    /** The plan that was asked for goes by another name now. */
    readonly moved?: Moved;
  };
}

/** The file of a plan was given another name. */
export interface Moved {
  readonly name: string;
  readonly to: string;
}

// who is asking

export interface Session {
  /** The name of the workspace folder, without its path. */
  readonly workspace: string;
  /** The plan that `setwright open` was given; empty when it was given a folder. */
  readonly open: string;
  /** The server's day: prices are held against it. */
  readonly today: string;
  readonly device: string;
  /** True for a page on the machine that the server runs on. */
  readonly here: boolean;
  readonly lan: boolean;
  /** Why nothing can be saved, as a sentence; left out when it can. */
  readonly readOnly?: string;
  /** Why revisions, ticks and prices are lost when the server stops; left out when they are kept. */
  readonly forgetful?: string;
}

export interface PairRequest {
  /** As it was shown; spaces, hyphens and case do not matter. */
  readonly code: string;
  /** What to call this device in the list of revisions. */
  readonly device: string;
}
export interface PairingCode {
  readonly code: string;
  readonly expires: string;
  /** Where other devices reach the workbench: http://192.168.1.20:4180/ */
  readonly addresses: readonly string[];
}
export interface Device {
  readonly id: number;
  readonly name: string;
  readonly paired: string;
  readonly seen: string;
  readonly expires: string;
}
export interface Devices {
  readonly devices: readonly Device[];
}

// plans

export interface PlanEntry {
  /** The file's name within the workspace: lesson-room.plan.yaml */
  readonly name: string;
  readonly title: string;
  readonly changed: string;
  readonly bytes: number;
  /** False when the file cannot be read as a plan. */
  readonly sound: boolean;
}
export interface Plans {
  readonly plans: readonly PlanEntry[];
}

/** All that a page asks for first, in one answer. */
export interface Opening extends Plans {
  readonly session: Session;
  /** The plan of the session, unless there is none or it cannot be read. */
  readonly plan?: PlanState;
  /** The same as it reads, where nothing is wrong with it: the page need not read it once more before it can draw. */
  readonly read?: ReadPlan;
}
export interface ReadPlan {
  readonly plain: PlainValue;
  readonly plan: Plan;
}

/** `name` may leave out `.plan.yaml`. */
export interface NewPlan {
  readonly name: string;
  readonly text: string;
}

export interface PlanState {
  readonly name: string;
  readonly text: string;
  /** Counts up within a plan. The base of the next save. */
  readonly revision: number;
  /** SHA-256 of the text in UTF-8, hexadecimal. */
  readonly hash: string;
  readonly at: string;
  readonly author: string;
  /** What is wrong with the file; empty for a sound plan. */
  readonly issues: readonly Issue[];
}

/** The whole text, or edits that are applied to the text of the base. */
export type SaveRequest = {
  /** The revision that the change was made on. */
  readonly base: number;
  /** The hash of that text as it was read; a base that does not match is a clash. Guards against a history that was lost meanwhile. */
  readonly baseHash?: string;
  /**
   * The text that the change was made on, where it is not the base's: a page that goes on while its last text is on the way, and learns that
   * it was merged, has not seen what others had changed. Left out: the base's.
   */
  readonly madeOn?: string;
  /** Made by the page for this save (any unique text up to 64 characters): asking again, after an answer got lost, saves once. */
  readonly id?: string;
  /** Save even a text that does not read as a plan (it still has to be YAML). */
  readonly evenIfWrong?: boolean;
} & ({ readonly text: string } | { readonly edits: readonly Edit[] });

export interface Saved extends PlanState {
  /**
   * `saved`: the text is as it was sent. `merged`: somebody else had changed other places; the text holds both, and the page shows it.
   * `same`: the file said this already.
   */
  readonly outcome: 'saved' | 'merged' | 'same';
}

/** Two changes of the same place. Nothing was written; a save with `base: current.revision` decides. */
export interface Conflict extends Refusal {
  readonly base: { readonly revision: number; readonly text: string };
  readonly current: PlanState;
  readonly mine: string;
  /** The refused text is kept as a revision of its own beside the line of the plan; left out when edits had no text to be made on. */
  readonly aside?: number;
  readonly clashes: readonly Clash[];
}
/** Lines of a clash, from (0-based) and up to but without `to`, in each of the three texts. */
export interface Clash {
  readonly base: LineRange;
  readonly mine: LineRange;
  readonly theirs: LineRange;
}
export interface LineRange {
  readonly from: number;
  readonly to: number;
}

/**
 * How a revision came about. `found`: the file as it was when first seen; `outside`: changed by another program; `aside`: refused for a
 * clash and kept beside the line.
 */
export type RevisionKind = 'found' | 'saved' | 'merged' | 'outside' | 'restored' | 'created' | 'aside';

export interface RevisionEntry {
  readonly revision: number;
  readonly at: string;
  readonly author: string;
  readonly kind: RevisionKind;
  readonly base?: number;
  readonly hash: string;
  readonly bytes: number;
}
export interface Revisions {
  readonly revisions: readonly RevisionEntry[];
  /** Give this as `before` for older ones; left out when there are none. */
  readonly older?: number;
}
export interface RevisionText extends RevisionEntry {
  readonly text: string;
}
/** Makes the text of an earlier revision the newest one; what changed since `base` is a clash, not lost. */
export interface RestoreRequest {
  readonly revision: number;
  readonly base: number;
  readonly id?: string;
}

/** The rows replace the plan's rack. */
export interface RackImport {
  readonly csv: string;
  readonly base: number;
  readonly id?: string;
}

// ticks

/**
 * Something in the shop was done, or was found not to be. The log only grows; `tickStates` says what holds. `about` names the thing in
 * the page's own way, such as `part:scores.left` or `cut:birch 3/4:2:5`.
 */
export interface NewTick {
  /** Made by the device, unique: the same tick arriving twice is one tick. Up to 64 characters. */
  readonly id: string;
  readonly about: string;
  readonly done: boolean;
  /** When it was tapped, by the device's clock. */
  readonly at: string;
}
export interface Tick extends NewTick {
  /** The place in the log, over all plans of the workspace. */
  readonly number: number;
  readonly device: string;
}
export interface TickRequest {
  readonly ticks: readonly NewTick[];
  /**
   * When it was sent, by the device's clock: by how much that is wrong, so much the times of the ticks are. Left out, a time in the future
   * is taken as the time it arrived, and one in the past as right.
   */
  readonly sent?: string;
}
export interface Ticks {
  readonly ticks: readonly Tick[];
  /** The last number in the log; give it as `after` next time. */
  readonly last: number;
  /** There are more after the last of these. */
  readonly more?: true;
}

// the price book

export interface Supplier {
  readonly id: string;
  readonly name: string;
  readonly remark?: string;
}
/** One price of one day. The book only grows: a price that was wrong is withdrawn, and stays to be seen. */
export interface NewPrice {
  /** Made by the page, unique. Sending it again with `withdrawn: true` withdraws it. */
  readonly id: string;
  /** Id of a panel, board or pack, as plans call it. */
  readonly stock: string;
  /** The size it is for, as written: 96" × 48"; empty for a pack. */
  readonly size: string;
  /** Id of a supplier, or empty. */
  readonly supplier: string;
  /** In whole units of the currency, as written: 84.50 */
  readonly price: string;
  /** ISO 4217 */
  readonly currency: string;
  /** The day it was true. */
  readonly date: string;
  readonly remark?: string;
  readonly withdrawn?: boolean;
}
export interface Price extends NewPrice {
  readonly number: number;
  readonly recorded: string;
  readonly by: string;
}
export interface PriceBook {
  readonly suppliers: readonly Supplier[];
  /** All there ever were, oldest day first; the last of a stock, size and supplier that is not withdrawn is today's. */
  readonly prices: readonly Price[];
}
export interface PriceRequest {
  readonly prices: readonly NewPrice[];
}
/**
 * Comma, semicolon or tab separated, the first row naming the columns: stock, size, supplier, price, currency, date, remark. Pasting
 * from a spreadsheet gives tabs. `currency` and `date` are for rows that leave theirs out.
 */
export interface PriceImport {
  readonly csv: string;
  readonly currency: string;
  readonly date: string;
  /** Only say what would be read. */
  readonly dryRun?: boolean;
}
export interface PriceImported {
  readonly read: readonly NewPrice[];
  /** How many of them were in the book already. */
  readonly known: number;
  readonly book: PriceBook;
}

// live updates

/**
 * The `data` of each event of the stream; the event's name is always `message`. After a gap that the server can no longer fill comes
 * `again`: read everything anew. `by` is the page that made the change.
 */
export type LiveEvent =
  | { readonly type: 'hello'; readonly started: string }
  | { readonly type: 'again' }
  | {
      readonly type: 'plan';
      readonly name: string;
      readonly revision: number;
      readonly hash: string;
      readonly kind: RevisionKind;
      readonly author: string;
      readonly by?: string;
    }
  /** Or only found under another name again, `to`. */
  | { readonly type: 'plan-gone'; readonly name: string; readonly to?: string }
  | { readonly type: 'plans' }
  | { readonly type: 'ticks'; readonly name: string; readonly ticks: readonly Tick[]; readonly by?: string }
  | { readonly type: 'prices'; readonly by?: string }
  | { readonly type: 'devices' };
