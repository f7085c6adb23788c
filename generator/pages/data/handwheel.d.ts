/* What the scripts share: each file adds its own piece to `handwheel`. The pieces that hand on data
   from Python have its shapes; those that only draw are left open. */

type Give = (kind: string, data: any) => void;

interface Handwheel {
  give: Give;
  whenGiven(key: string, use: (data: any) => void): void;
  withFamily(id: string, use: (family: FamilyData) => void): void;
  load(address: string): void;
  root(): string;
  el(name: string, attributes?: Record<string, any> | null, ...children: any[]): any;
  minutes(value: number): string;
  percent(share: number): string;
  whenIdle(act: () => void): void;
  afterPaint(act: () => void): void;
  graph: { reached<T>(starts: Iterable<T>, after: (node: T) => Iterable<T>): Set<T> };
  machine: {
    wayIn(family: Machine, parts: Iterable<string>): Set<string>;
    upset(family: Machine, partsOff: Iterable<string>, settingsMade: Iterable<string>): Set<string>;
    work(family: Machine, remedy: RemedyData): Work;
    shut(parts: Iterable<string>, open: Set<string>): string[];
  };
  takes: {
    opening(family: Machine, parts: Iterable<string>, open: Set<string>): number;
    setting(family: Machine, id: string, read: boolean): number;
    settings(family: Machine, made: Iterable<string>, read: Set<string>): number;
    check(family: Machine, given: { minutes: number; reach: string[] }, open: Set<string>): number;
    remedy(family: Machine & { proving: number; mains_test: number }, given: RemedyData, open: Set<string>): number;
    tested(family: Machine, given: RemedyData): boolean;
    tests(family: Machine & { mains_test: number }, given: RemedyData): number;
  };
  [piece: string]: any;
}

/** What minutes and ways in are reckoned from: a family's data, or a machine that is not listed. */
interface Machine {
  parts: Record<string, PartData>;
  settings: Record<string, SettingData>;
}

/** All parts that come off for a remedy and all settings made for it. */
interface Work {
  parts: Set<string>;
  settings: Set<string>;
  read: Set<string>;
}

declare const handwheel: Handwheel;
interface Window {
  handwheel: Handwheel;
}

/* A script knows its own page: what it looks up there is of the kind that it asks for. */
interface Element {
  checked: boolean;
  click(): void;
  content: string;
  dataset: DOMStringMap;
  focus(options?: FocusOptions): void;
  hidden: boolean;
  offsetParent: Element | null;
  href: string;
  open: boolean;
  options: HTMLOptionsCollection;
  value: string;
}
interface EventTarget {
  select(): void;
  closest(selectors: string): Element | null;
}
