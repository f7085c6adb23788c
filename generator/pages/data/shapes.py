"""The shapes of what the browser is given: the contract between Python and the scripts.

`generator/pages/data/browser.d.ts` is made from this module by `tests/contract/type_file.py`, and
the scripts are checked against it. Minutes are bench minutes. Links are from the site's root. A
`NotRequired` key is left out where it would be empty.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NotRequired, TypedDict

Ids = Sequence[str]


class PartData(TypedDict):
    """What minutes are reckoned from."""

    title: str
    behind: Ids
    off: float
    on: float
    disturbs: Ids
    loses: Ids
    "Of those, settings that do up a joint which it is fitted with only nipped."
    mains: bool


class SettingData(TypedDict):
    """What minutes and order are reckoned from."""

    title: str
    minutes: float
    read_minutes: float | None
    "None: it is never read first."
    after: Ids
    disturbs: Ids
    reach: Ids


class PhotoFile(TypedDict):
    """One file of a picture."""

    file: str
    "From the site's root."
    width: int
    "Pixels."


class PhotoData(TypedDict):
    """A picture as pages show it."""

    files: Sequence[PhotoFile]
    "The narrowest first."
    height: int
    "Of the first, in pixels."
    alt: str
    credit: str


class CheckData(TypedDict):
    """A check as it is told and reckoned."""

    title: str
    how: str
    "HTML that our own converter made."
    expect: str
    minutes: float
    reach: Ids
    power: str
    trust: float
    cautions: Ids
    pictures: NotRequired[Sequence[PhotoData]]


class ShownCheckData(CheckData):
    """With what each outcome means, in the order of the record."""

    means: Sequence[str]
    looks: Sequence[Sequence[PhotoData]]
    "Pictures of each outcome, in the order of the record; empty where none has any."


class WaitData(TypedDict):
    """A wait within a piece of work; no minutes where nothing waits."""

    minutes: float
    why: str


class RemedyData(TypedDict):
    """What minutes are reckoned from."""

    renew: Ids
    set: Ids
    reach: Ids
    minutes: float
    clean: Ids
    wait: WaitData
    "Of its minutes, those of waiting."


class CautionData(TypedDict):
    """A caution's words."""

    title: str
    text: str
    level: str


# --- a family: bench pages, the walk, the practice bench ---


class FamilyPart(PartData):
    """A part of a family."""

    home: str
    cautions: Ids


class FamilySetting(SettingData):
    """A setting of a family."""

    home: str


class FamilyMode(TypedDict):
    """A failure mode that the family can have."""

    title: str
    sits_on: str
    signs: Sequence[str]
    remedy: str
    cautions: Ids


class FamilyRemedy(RemedyData):
    """A remedy, with its sheet's address or an empty one."""

    says: str
    sheet: str


class HypothesisData(TypedDict):
    """One thing that may be wrong."""

    id: str
    causes: Ids
    share: float
    remedy: str
    rests: str


class CaseCheckData(TypedDict):
    """A check as it bears on a complaint."""

    id: str
    says: Sequence[str]
    sees: Sequence[int]
    "For each hypothesis, in order, the index of the outcome that it shows, from 0."
    cured: Sequence[int]
    "Outcomes that end the job, from 0."
    sound: int
    "The outcome that a sound machine shows, and so a cause that nobody has listed, from 0."
    trust: Sequence[float]
    "By outcome: how often a cause that shows it is seen to show it."
    does: Ids
    "Remedies that it does on its way or as a trial."


class LostData(TypedDict):
    """What destroys what a check reads."""

    by: str
    "A check or a remedy."
    reads: str
    "A check that therefore comes before it."


class DoubtData(TypedDict):
    """What may deceive, fail or not be listed."""

    unlisted: float
    "Prior of a cause that is not listed."
    stop: float
    "Minutes of stopping to think."
    come_back: float
    "Minutes that a listed cause costs that is left in the machine."
    cures: float
    "How often a remedy cures its cause."
    wants_proof: Ids
    "Remedies that are done only after their own sign was seen."
    before: Ids
    "Checks that come before all else, in this order."
    safe: Ids
    "Of those, the ones that must be found sound before power goes on."
    powered: Ids
    "Checks that are done with power on."
    lost: Sequence[LostData]


class SymptomData(TypedDict):
    """A complaint worked out."""

    title: str
    said: Sequence[str]
    hypotheses: Sequence[HypothesisData]
    checks: Sequence[CaseCheckData]
    doubt: DoubtData
    policy: object
    """The written order as steps `{does, id, left, then}`: `left` minutes are still to expect; `then` has the
    step after each outcome of a check, from 1, or after `else` of a remedy, where one is written."""
    expected: float


class FamilyData(TypedDict):
    """Everything that scripts need of one family."""

    id: str
    title: str
    kind: str
    by_hand: bool
    proving: float
    mains_test: float
    found_out: float
    parts: Mapping[str, FamilyPart]
    settings: Mapping[str, FamilySetting]
    modes: Mapping[str, FamilyMode]
    remedies: Mapping[str, FamilyRemedy]
    checks: Mapping[str, ShownCheckData]
    cautions: Mapping[str, CautionData]
    symptoms: Mapping[str, SymptomData]


# --- the planner ---


class JointWords(TypedDict):
    """A joint on a step."""

    title: str
    href: str
    facts: Sequence[str]


class StepWords(TypedDict):
    """The words of one step by itself, as a job sheet has them."""

    do: NotRequired[str]
    title: NotRequired[str]
    href: NotRequired[str]
    how: NotRequired[str]
    cautions: NotRequired[Ids]
    technique: NotRequired[str]
    joints: NotRequired[Sequence[JointWords]]
    notes: NotRequired[Sequence[str]]
    power: NotRequired[str]
    target: NotRequired[str]


class ProvingWords(StepWords):
    """A check that proves a setting."""

    expect: str
    tools: Ids
    reach: Ids
    parts_on: Ids
    position: str


class PlannerPart(PartData):
    """A part as a plan handles it."""

    home: str
    href: str
    off_position: str
    on_position: str
    off_tools: Ids
    on_tools: Ids
    joints: Ids
    loose: Ids
    slackens: Ids
    nips: Ids
    off_wait: WaitData
    on_wait: WaitData
    oil: Ids
    wears: bool
    renew_with: Ids
    price: Sequence[float] | None
    "Least and most, in the shop's currency."
    stock: int | None
    cautions: Ids
    take_off: StepWords
    refit: StepWords


class PlannerSetting(SettingData):
    """A setting as a plan handles it."""

    home: str
    parts_on: Ids
    position: str
    tools: Ids
    proved_by: str
    joints: Ids
    read: str
    measure: str
    told: StepWords


class PlannerMode(TypedDict):
    """A failure mode as a reason for work."""

    title: str
    home: str
    href: str
    remedy: str
    tools: Ids
    cautions: Ids
    says: Sequence[str]
    technique: str


class RecordedData(TypedDict):
    """What finished jobs of one remedy took."""

    jobs: int
    minutes: float
    "The middle one's."


class PlannerRemedy(RemedyData):
    """A remedy in words."""

    says: str
    recorded: RecordedData | None
    "What the shop's own jobs took; None where too few are known."


class HomeData(TypedDict):
    """A mechanism and what holds for all work in it."""

    title: str
    cautions: Ids


class TechniqueData(TypedDict):
    """A way of working."""

    title: str
    cautions: Ids


class ShopData(TypedDict):
    """What a quote is made with."""

    currency: str
    labour_rate: float
    spread: float
    margin: float
    rounding: float
    tax: str
    invented: bool


class PlannerData(TypedDict):
    """All that a plan for any remedies of one family is made and told from."""

    id: str
    title: str
    href: str
    proving: float
    mains_test: float
    found_out: float
    parts: Mapping[str, PlannerPart]
    settings: Mapping[str, PlannerSetting]
    modes: Mapping[str, PlannerMode]
    remedies: Mapping[str, PlannerRemedy]
    checks: Mapping[str, ProvingWords]
    oil: Mapping[str, StepWords]
    homes: Mapping[str, HomeData]
    joints: Mapping[str, str]
    counts: Mapping[str, int]
    keys: Mapping[str, Sequence[Ids]]
    "Joint -> for each thing that drives it, the tools that serve."
    tools: Mapping[str, str]
    techniques: Mapping[str, TechniqueData]
    cautions: Mapping[str, CautionData]
    always: Ids
    tests: Sequence[str]
    shown_open: int
    "Parts offered while the machine is open."
    turns: Mapping[str, str]
    "How the machine lies -> what to do to bring it there."
    leaving: Mapping[str, str]
    "How the machine lies -> what to see to before it leaves that."
    lift: str
    test: StepWords
    live: Ids
    "Settings and checks done under power."
    proving_cautions: Ids
    shop: ShopData


# --- the finder's pages ---


PartPlace = Sequence[str | Sequence[str]]
"Address, title and mechanism of a part or setting, and the families that have it there."


class PagesData(TypedDict):
    """Every page that words lead to."""

    pages: Sequence[Sequence[str]]
    "Address, title, what its hub is called, and its further words."
    parts: Sequence[PartPlace]


# --- a machine that is not listed ---


class FeatureNeeds(TypedDict):
    """Features that a family must have, and must not have."""

    needs: Ids
    lacks: Ids


class MechanismPart(PartData, FeatureNeeds):
    """A part on any family that has the mechanism."""

    nips: Ids
    renew_with: Ids
    cautions: Ids
    dear: bool
    "Whether its price is one from which a sign must be seen before it is renewed."


class MechanismSetting(SettingData, FeatureNeeds):
    """A setting on any family that has the mechanism."""

    joints: Ids


class Mechanism(TypedDict):
    """An assembly that a machine may be built from."""

    id: str
    title: str
    role: str
    recognise: str
    parts: Mapping[str, MechanismPart]
    settings: Mapping[str, MechanismSetting]


class UseData(TypedDict):
    """A mechanism as a family uses it."""

    use: str
    without: Ids


class ListedFamily(TypedDict):
    """A family to begin from."""

    id: str
    title: str
    kind: str
    recognise: str
    uses: Sequence[UseData]
    features: Mapping[str, bool]
    cautions: Ids


class FeatureData(TypedDict):
    """A feature and how to ask for it."""

    id: str
    title: str
    ask: str
    calls: Mapping[str, str]
    "Word of shared records -> what it is called on a machine with the feature."


class MechanismMode(FeatureNeeds):
    """A failure mode on any family, with what puts it right."""

    id: str
    title: str
    sits_on: str
    seen: float
    shows: Mapping[str, float]
    "Symptom id -> of the machines that have it, the part that comes in so."
    shows_else: float
    "The same for every other symptom that it can cause."
    cautions: Ids
    no_sign: bool
    "Whether its record says that nothing shows it."
    renew: Ids
    set: Ids
    clean: Ids
    reach: Ids
    minutes: float
    advise: str


class OutcomeData(TypedDict):
    """What a check may show."""

    says: str
    means: str
    fits: Ids
    "Failure modes that show it, on any family."
    otherwise: bool
    cured: bool
    good: bool


class MechanismCheck(CheckData, FeatureNeeds):
    """A check on any family."""

    id: str
    only_for: Ids
    does: Ids
    "Failure modes whose remedy it does on its way."
    evidence_lost_by: Ids
    "Checks that destroy what it reads."
    outcomes: Sequence[OutcomeData]


class MechanismSymptom(FeatureNeeds):
    """A complaint on any family."""

    id: str
    title: str
    cautions: Ids
    stop: bool
    stop_why: str
    first: str
    before: Ids
    "Checks that come before all others, in this order."
    tree: object
    "A failure mode's id, `{see}` for a transfer, or `{id, title, k, of}` for a gate that takes `k` of its inputs."


class BookDoubt(TypedDict):
    """What may deceive, fail or not be listed, on any machine."""

    unlisted: float
    stop: float
    come_back: float
    cures: float
    dear_minutes: float
    "Bench minutes from which a sign must be seen before a remedy is done."


class MechanismsData(TypedDict):
    """Everything that a family can be built from, not yet cut down to any family."""

    proving: float
    mains_test: float
    found_out: float
    doubt: BookDoubt
    families: Sequence[ListedFamily]
    assemblies: Sequence[Mechanism]
    features: Sequence[FeatureData]
    modes: Sequence[MechanismMode]
    checks: Sequence[MechanismCheck]
    symptoms: Sequence[MechanismSymptom]
    cautions: Mapping[str, CautionData]
