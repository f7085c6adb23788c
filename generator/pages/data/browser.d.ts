/* Made from shapes.py by tests/contract/type_file.py. What the browser is given, and nothing else. */

/** What minutes are reckoned from. */
interface PartData {
  title: string;
  behind: Array<string>;
  off: number;
  on: number;
  disturbs: Array<string>;
  loses: Array<string>;
  mains: boolean;
}

/** What minutes and order are reckoned from. */
interface SettingData {
  title: string;
  minutes: number;
  read_minutes: number | null;
  after: Array<string>;
  disturbs: Array<string>;
  reach: Array<string>;
}

/** One file of a picture. */
interface PhotoFile {
  file: string;
  width: number;
}

/** A picture as pages show it. */
interface PhotoData {
  files: Array<PhotoFile>;
  height: number;
  alt: string;
  credit: string;
}

/** A check as it is told and reckoned. */
interface CheckData {
  title: string;
  how: string;
  expect: string;
  minutes: number;
  reach: Array<string>;
  power: string;
  trust: number;
  cautions: Array<string>;
  pictures?: Array<PhotoData>;
}

/** With what each outcome means, in the order of the record. */
interface ShownCheckData {
  title: string;
  how: string;
  expect: string;
  minutes: number;
  reach: Array<string>;
  power: string;
  trust: number;
  cautions: Array<string>;
  pictures?: Array<PhotoData>;
  means: Array<string>;
  looks: Array<Array<PhotoData>>;
}

/** A wait within a piece of work; no minutes where nothing waits. */
interface WaitData {
  minutes: number;
  why: string;
}

/** What minutes are reckoned from. */
interface RemedyData {
  renew: Array<string>;
  set: Array<string>;
  reach: Array<string>;
  minutes: number;
  clean: Array<string>;
  wait: WaitData;
}

/** A caution's words. */
interface CautionData {
  title: string;
  text: string;
  level: string;
}

/** A part of a family. */
interface FamilyPart {
  title: string;
  behind: Array<string>;
  off: number;
  on: number;
  disturbs: Array<string>;
  loses: Array<string>;
  mains: boolean;
  home: string;
  cautions: Array<string>;
}

/** A setting of a family. */
interface FamilySetting {
  title: string;
  minutes: number;
  read_minutes: number | null;
  after: Array<string>;
  disturbs: Array<string>;
  reach: Array<string>;
  home: string;
}

/** A failure mode that the family can have. */
interface FamilyMode {
  title: string;
  sits_on: string;
  signs: Array<string>;
  remedy: string;
  cautions: Array<string>;
}

/** A remedy, with its sheet's address or an empty one. */
interface FamilyRemedy {
  renew: Array<string>;
  set: Array<string>;
  reach: Array<string>;
  minutes: number;
  clean: Array<string>;
  wait: WaitData;
  says: string;
  sheet: string;
}

/** One thing that may be wrong. */
interface HypothesisData {
  id: string;
  causes: Array<string>;
  share: number;
  remedy: string;
  rests: string;
}

/** A check as it bears on a complaint. */
interface CaseCheckData {
  id: string;
  says: Array<string>;
  sees: Array<number>;
  cured: Array<number>;
  sound: number;
  trust: Array<number>;
  does: Array<string>;
}

/** What destroys what a check reads. */
interface LostData {
  by: string;
  reads: string;
}

/** What may deceive, fail or not be listed. */
interface DoubtData {
  unlisted: number;
  stop: number;
  come_back: number;
  cures: number;
  wants_proof: Array<string>;
  before: Array<string>;
  safe: Array<string>;
  powered: Array<string>;
  lost: Array<LostData>;
}

/** A complaint worked out. */
interface SymptomData {
  title: string;
  said: Array<string>;
  hypotheses: Array<HypothesisData>;
  checks: Array<CaseCheckData>;
  doubt: DoubtData;
  policy: unknown;
  expected: number;
}

/** Everything that scripts need of one family. */
interface FamilyData {
  id: string;
  title: string;
  kind: string;
  by_hand: boolean;
  proving: number;
  mains_test: number;
  found_out: number;
  parts: Record<string, FamilyPart>;
  settings: Record<string, FamilySetting>;
  modes: Record<string, FamilyMode>;
  remedies: Record<string, FamilyRemedy>;
  checks: Record<string, ShownCheckData>;
  cautions: Record<string, CautionData>;
  symptoms: Record<string, SymptomData>;
}

/** A joint on a step. */
interface JointWords {
  title: string;
  href: string;
  facts: Array<string>;
}

/** The words of one step by itself, as a job sheet has them. */
interface StepWords {
  do?: string;
  title?: string;
  href?: string;
  how?: string;
  cautions?: Array<string>;
  technique?: string;
  joints?: Array<JointWords>;
  notes?: Array<string>;
  power?: string;
  target?: string;
}

/** A check that proves a setting. */
interface ProvingWords {
  do?: string;
  title?: string;
  href?: string;
  how?: string;
  cautions?: Array<string>;
  technique?: string;
  joints?: Array<JointWords>;
  notes?: Array<string>;
  power?: string;
  target?: string;
  expect: string;
  tools: Array<string>;
  reach: Array<string>;
  parts_on: Array<string>;
  position: string;
}

/** A part as a plan handles it. */
interface PlannerPart {
  title: string;
  behind: Array<string>;
  off: number;
  on: number;
  disturbs: Array<string>;
  loses: Array<string>;
  mains: boolean;
  home: string;
  href: string;
  off_position: string;
  on_position: string;
  off_tools: Array<string>;
  on_tools: Array<string>;
  joints: Array<string>;
  loose: Array<string>;
  slackens: Array<string>;
  nips: Array<string>;
  off_wait: WaitData;
  on_wait: WaitData;
  oil: Array<string>;
  wears: boolean;
  renew_with: Array<string>;
  price: Array<number> | null;
  stock: number | null;
  cautions: Array<string>;
  take_off: StepWords;
  refit: StepWords;
}

/** A setting as a plan handles it. */
interface PlannerSetting {
  title: string;
  minutes: number;
  read_minutes: number | null;
  after: Array<string>;
  disturbs: Array<string>;
  reach: Array<string>;
  home: string;
  parts_on: Array<string>;
  position: string;
  tools: Array<string>;
  proved_by: string;
  joints: Array<string>;
  read: string;
  measure: string;
  told: StepWords;
}

/** A failure mode as a reason for work. */
interface PlannerMode {
  title: string;
  home: string;
  href: string;
  remedy: string;
  tools: Array<string>;
  cautions: Array<string>;
  says: Array<string>;
  technique: string;
}

/** What finished jobs of one remedy took. */
interface RecordedData {
  jobs: number;
  minutes: number;
}

/** A remedy in words. */
interface PlannerRemedy {
  renew: Array<string>;
  set: Array<string>;
  reach: Array<string>;
  minutes: number;
  clean: Array<string>;
  wait: WaitData;
  says: string;
  recorded: RecordedData | null;
}

/** A mechanism and what holds for all work in it. */
interface HomeData {
  title: string;
  cautions: Array<string>;
}

/** A way of working. */
interface TechniqueData {
  title: string;
  cautions: Array<string>;
}

/** What a quote is made with. */
interface ShopData {
  currency: string;
  labour_rate: number;
  spread: number;
  margin: number;
  rounding: number;
  tax: string;
  invented: boolean;
}

/** All that a plan for any remedies of one family is made and told from. */
interface PlannerData {
  id: string;
  title: string;
  href: string;
  proving: number;
  mains_test: number;
  found_out: number;
  parts: Record<string, PlannerPart>;
  settings: Record<string, PlannerSetting>;
  modes: Record<string, PlannerMode>;
  remedies: Record<string, PlannerRemedy>;
  checks: Record<string, ProvingWords>;
  oil: Record<string, StepWords>;
  homes: Record<string, HomeData>;
  joints: Record<string, string>;
  counts: Record<string, number>;
  keys: Record<string, Array<Array<string>>>;
  tools: Record<string, string>;
  techniques: Record<string, TechniqueData>;
  cautions: Record<string, CautionData>;
  always: Array<string>;
  tests: Array<string>;
  shown_open: number;
  turns: Record<string, string>;
  leaving: Record<string, string>;
  lift: string;
  test: StepWords;
  live: Array<string>;
  proving_cautions: Array<string>;
  shop: ShopData;
}

/** Every page that words lead to. */
interface PagesData {
  pages: Array<Array<string>>;
  parts: Array<Array<string | Array<string>>>;
}

/** Features that a family must have, and must not have. */
interface FeatureNeeds {
  needs: Array<string>;
  lacks: Array<string>;
}

/** A part on any family that has the mechanism. */
interface MechanismPart {
  title: string;
  behind: Array<string>;
  off: number;
  on: number;
  disturbs: Array<string>;
  loses: Array<string>;
  mains: boolean;
  needs: Array<string>;
  lacks: Array<string>;
  nips: Array<string>;
  renew_with: Array<string>;
  cautions: Array<string>;
  dear: boolean;
}

/** A setting on any family that has the mechanism. */
interface MechanismSetting {
  title: string;
  minutes: number;
  read_minutes: number | null;
  after: Array<string>;
  disturbs: Array<string>;
  reach: Array<string>;
  needs: Array<string>;
  lacks: Array<string>;
  joints: Array<string>;
}

/** An assembly that a machine may be built from. */
interface Mechanism {
  id: string;
  title: string;
  role: string;
  recognise: string;
  parts: Record<string, MechanismPart>;
  settings: Record<string, MechanismSetting>;
}

/** A mechanism as a family uses it. */
interface UseData {
  use: string;
  without: Array<string>;
}

/** A family to begin from. */
interface ListedFamily {
  id: string;
  title: string;
  kind: string;
  recognise: string;
  uses: Array<UseData>;
  features: Record<string, boolean>;
  cautions: Array<string>;
}

/** A feature and how to ask for it. */
interface FeatureData {
  id: string;
  title: string;
  ask: string;
  calls: Record<string, string>;
}

/** A failure mode on any family, with what puts it right. */
interface MechanismMode {
  needs: Array<string>;
  lacks: Array<string>;
  id: string;
  title: string;
  sits_on: string;
  seen: number;
  shows: Record<string, number>;
  shows_else: number;
  cautions: Array<string>;
  no_sign: boolean;
  renew: Array<string>;
  set: Array<string>;
  clean: Array<string>;
  reach: Array<string>;
  minutes: number;
  advise: string;
}

/** What a check may show. */
interface OutcomeData {
  says: string;
  means: string;
  fits: Array<string>;
  otherwise: boolean;
  cured: boolean;
  good: boolean;
}

/** A check on any family. */
interface MechanismCheck {
  title: string;
  how: string;
  expect: string;
  minutes: number;
  reach: Array<string>;
  power: string;
  trust: number;
  cautions: Array<string>;
  pictures?: Array<PhotoData>;
  needs: Array<string>;
  lacks: Array<string>;
  id: string;
  only_for: Array<string>;
  does: Array<string>;
  evidence_lost_by: Array<string>;
  outcomes: Array<OutcomeData>;
}

/** A complaint on any family. */
interface MechanismSymptom {
  needs: Array<string>;
  lacks: Array<string>;
  id: string;
  title: string;
  cautions: Array<string>;
  stop: boolean;
  stop_why: string;
  first: string;
  before: Array<string>;
  tree: unknown;
}

/** What may deceive, fail or not be listed, on any machine. */
interface BookDoubt {
  unlisted: number;
  stop: number;
  come_back: number;
  cures: number;
  dear_minutes: number;
}

/** Everything that a family can be built from, not yet cut down to any family. */
interface MechanismsData {
  proving: number;
  mains_test: number;
  found_out: number;
  doubt: BookDoubt;
  families: Array<ListedFamily>;
  assemblies: Array<Mechanism>;
  features: Array<FeatureData>;
  modes: Array<MechanismMode>;
  checks: Array<MechanismCheck>;
  symptoms: Array<MechanismSymptom>;
  cautions: Record<string, CautionData>;
}
