// What crosses between the page and the engine: the Go types of internal/engine
// (call.go, view.go), internal/dinner (event.go, state.go) and internal/card
// (problem.go), with the same names and the same JSON. A test compares them.

export interface File { name: string; text: string }
export interface LoadCall { files: File[] }
export interface LibraryView { files: LibraryFile[]; problems: Problem[] }
export interface LibraryFile {
  name: string; id: string; kind: string; title: string; makes: string; covers: number; serve: string; kitchen: string;
  plate: boolean; errors: number; warnings: number; needs: string[]; guests: GuestGroup[];
}
export interface GuestGroup { covers: number; exclude: string[]; note: string }
export interface FindCall { words: string; most: number }
export interface FindView { total: number; hits: Hit[] }
export interface Hit { name: string; has: string }
export interface ReadCall { name: string; text?: string; make?: string; line?: number; hundred?: number[] }
export interface PageView { title: string; kind: string; html: string; makes: string; problems: Problem[]; card: CardPage | null }
export interface CardPage { factor: string; weighs: string; yield: string; items: PageItem[]; steps: PageStep[]; saves: string[]; asides: string[] }
export interface PageItem {
  item: number; group: string; amount: string; exact: Amount; aside: string; name: string; prep: string; card: string; percent: string;
  hundred: boolean; basis: string; trim: string;
}
export interface PageStep { number: number; way: string; text: string; facts: string[] }
export interface OpenCall { dinner: string; texts: Record<string, string>; events: Event[] }
export interface ApplyCall { dinner: string; texts?: Record<string, string>; events: Event[] }
export interface DinnerCall { dinner: string }
export interface Prefs { dinner?: string; system: string; scale: string }
export interface PlanCall { dinner: string; serveAt: number; now: number; clockChanges: ClockChangeView[]; fresh: boolean; full: boolean }
export interface ClockChangeView { wall: string; by: number }
export interface StampCall { now: number; last: Stamp; events: Event[] }
export interface StampView { events: Event[]; last: Stamp }
/** offset: minutes that the wall clock is ahead of UTC. */
export interface WatchCall { dinner: string; key: string; now: number; offset: number }
export interface WatchView {
  kind: string; state: string; line: string; lines: WatchLine[]; asks: AskView[]; points: PointView[]; curve: CurveView[]; marks: MarkView[];
  ways: WayView[]; vessel: string; said: boolean; assumed: string[]; defer: string;
}
export interface WatchLine { state: string; text: string; source: string }
export interface AskView { event: string; at: number; text: string; tempC: number; asF: boolean }
export interface PointView { event: string; at: number; text: string; c: number; who: string; counted: boolean }
export interface CurveView { at: number; slow: number; mid: number; quick: number }
export interface MarkView { at: number; c: number; text: string }
export interface WayView { text: string; meets: boolean; lines: string[] }
export interface ClockCall { dinner: string; now: number; offset: number }
export interface ControlsView { points: ControlView[]; csv: string; rules: string; made: string; defer: string }
export interface ControlView {
  key: string; card: string; title: string; batch: string; number: number; what: string; step: string; limits: WatchLine[]; state: string;
  say: string; entries: EntryView[];
}
export interface EntryView { event: string; at: number; time: string; who: string; text: string; note: boolean; back: string; doubt: string }
export interface LabelsView { labels: LabelView[]; defer: string }
export interface LabelView {
  key: string; name: string; amount: string; done: boolean; made: string; by: string; use: string; basis: string; keeps: string[];
  carries: string[]; may: string[]; notAssessed: string[]; without: string[]; list: string;
}
export interface TextCall { text: string }
export interface RevisionView { revision: string }
export interface Failure { error: string }

export interface Problem { file: string; line: number; col: number; severity: 'error' | 'warning'; msg: string; hint?: string; do?: string }

export interface DinnerView {
  dinner: string; title: string; intro: string; covers: number; serve: string; kitchen: string;
  courses: Course[]; cards: CardView[]; guests: GuestView[]; sheet: SheetView[]; problems: Problem[];
}
export interface SheetView {
  course: string; plate: string; for: string[]; covers: number; eu: AllergenView[]; us: AllergenView[]; notAssessed: string[]; without: string[];
}
export interface AllergenView { code: string; name: string; certainty: string; via: string[] }
export interface Course { name: string; at: string; plates: PlateView[] }
export interface PlateView { card: string; name: string; covers: number; for: string[]; each: string; build: UseView[] }
export interface GuestView { covers: number; exclude: string[]; note: string; clashes: Clash[] }
export interface Clash { course: string; plate: string; via: string[]; sure: boolean }
export interface CardView {
  id: string; title: string; intro: string; plate: boolean; courses: string[]; makes: string; keeps: string[];
  ways: string[]; way: number; goesInto: string[]; saves: string[]; batches: BatchView[];
  means: MeansView | null;
}
export interface MeansView {
  planned: string; made: string; need: string; short: string; spare: string; covers: number; gets: GetView[]; choices: ChoiceView[];
  doubt: string;
}
export interface GetView { to: string; planned: string; now: string }
/** An event of this kind on this key with these fields takes the choice. */
export interface ChoiceView { text: string; kind: Kind; on: string; done?: boolean; number?: number; amount?: Amount }
export interface BatchView { key: string; make: string; exact: string; got: string; mise: MiseView[]; steps: StepView[] }
export interface MiseView {
  key: string; item: number; amount: string; aside: string; name: string; prep: string; optional: boolean; left: boolean;
  card: string; group: string;
}
export interface StepView {
  key: string; number: number; runs: RunView[]; uses: UseView[]; facts: FactView[]; cautions: string[]; until: string;
  heat: string; hands: string; wait: string; loads: string; waitLow: number; waitHigh: number; atLeast: boolean;
  serve: boolean; weigh: string; probe: boolean; saves: string[];
}
export interface RunView { text: string; amount: string; item: number; strong: boolean; card: string }
export interface UseView { amount: string; aside: string; name: string; prep: string; card: string }
export interface FactView { word: string; value: string }
export interface OrderView { sections: OrderSection[]; cost: string; perCover: string; unpriced: number }
export interface OrderSection { name: string; lines: OrderLine[] }
export interface OrderLine {
  key: string; name: string; buy: string; need: string; for: string[]; lastDay: boolean; note: string; have: string; unit: string; cost: string;
  asked: Amount[];
}
export interface Sheet { dinner?: DinnerView; state: State }

export interface Event {
  id: string; dinner: string; device: string; stamp: Stamp; kind: Kind; who?: string; on?: string; done?: boolean; amount?: Amount;
  tempC?: number; start?: number; end?: number; number?: number; text?: string; undo?: string; open?: Open; plan?: Record<string, number>;
}
export type Kind = 'open' | 'tick' | 'start' | 'finish' | 'measure' | 'temperature' | 'timer' | 'covers' | 'guests' | 'serve' | 'way' |
  'leave' | 'portion' | 'again' | 'have' | 'delay' | 'plan' | 'note' | 'pin' | 'undo';
export interface Open { menu: string; kitchen: string; covers: number; serve: string; zone?: string; files: Record<string, string> }
export interface Stamp { wall: number; count: number }
/** quantity.Amount; figures are exact and written as text, "7/3" or "1.25". */
export interface Amount { qty: string; to?: string; unit: string | null; toTaste?: boolean; about?: boolean }

export interface State {
  dinner: string; name: string; open: Open | null; covers: number; guests: string | null; serve: string; ticks: Record<string, Tick>;
  starts: Record<string, Moment>; ends: Record<string, Moment>; measures: Record<string, Measure[]>; temps: Record<string, Temp[]>;
  timers: Record<string, Timer>; ways: Record<string, number>; leave: Record<string, boolean>; portions: Record<string, string>;
  again: Record<string, boolean>; have: Record<string, Amount>;
  delays: Record<string, number>; later: Record<string, number>; notes: Note[]; plan: Plan | null; last: string;
}
export interface Tick { done: boolean; at: number; device: string; event: string }
export interface Moment { at: number; device: string; event: string }
export interface Measure { amount: Amount; at: number; device: string; event: string }
export interface Temp { c: number; at: number; device: string; event: string }
export interface Timer { start: number; end: number; device: string; event: string }
/** When each step starts, minutes after the serving time, by key. */
export interface Plan { starts: Record<string, number>; at: number; device: string; event: string }
export interface Note { on: string; text: string; at: number; device: string; event: string }

/** When each step starts. Minutes are after the serving time. */
export interface PlanView {
  under: boolean; past: boolean; blocked: string[]; changes: ChangeView[]; tasks: TaskView[]; courses: PlanCourse[]; cooks: string[];
  places: string[]; hours: PlanHours[]; ways: PlanWay[]; assumed: string[]; notes: string[]; moves: string[];
  starts: Record<string, number>; chances: ChanceView[]; decide: string[];
}
export interface ChangeView { text: string; effect: string }
export interface TaskView {
  key: string; title: string; number: number; load: string; say: string; start: number; free: number; end: number; latest: number;
  from: string; to: string; cook: number; on: string[]; heat: string; held: boolean; done: boolean; overdue: string;
}
export interface PlanCourse { name: string; at: number; wall: string; late: number }
export interface PlanHours { from: number; to: number; wall: string; end: string }
export interface PlanWay { card: string; title: string; number: number; way: string; why: string; taken: boolean }
export interface ChanceView { course: string; percent: number; late: number }

/** One method of the engine: what it takes and what it answers. */
export interface Calls {
  load: [LoadCall, LibraryView];
  find: [FindCall, FindView];
  read: [ReadCall, PageView];
  open: [OpenCall, Sheet];
  apply: [ApplyCall, Sheet];
  prefs: [Prefs, Sheet];
  order: [DinnerCall, OrderView];
  plan: [PlanCall, PlanView];
  watch: [WatchCall, WatchView];
  controls: [ClockCall, ControlsView];
  labels: [ClockCall, LabelsView];
  stamp: [StampCall, StampView];
  revision: [TextCall, RevisionView];
}
