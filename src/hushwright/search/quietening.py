"""A search for quiet: from a build file and a verdict on a sound to steps that make it quieter, the cheapest first."""

from __future__ import annotations

from collections.abc import Generator, Iterator, Sequence
from dataclasses import dataclass, field, replace

from hushwright.document.edits import Edit, edited
from hushwright.errors import InvalidInput, UnreadableDocument
from hushwright.evaluation.couple import Core, couple_sound
from hushwright.evaluation.evaluate import changes_of, completed, evaluate_nominal, with_build, with_earlier_shares
from hushwright.evaluation.guard import CannotEvaluate
from hushwright.evaluation.results import Evaluation
from hushwright.model.build import Build
from hushwright.search.changes import Change, Place, places_of
from hushwright.search.chased import Chased, chased_as, open_verdict
from hushwright.search.comparing import build_from
from hushwright.search.quiet_steps import Looking, Price, Quietened, QuietStep, Refused, named
from hushwright.search.reckoning import broken_by, price_between, score_of, to_recount, told_edits, touched_by
from hushwright.search.telling import quietened
from hushwright.verdicts.judge import judge
from hushwright.verdicts.verdict import Verdict

ROUNDS = 8
"""Times that the ways are ranked anew, at the most."""
IN_A_ROUND = 40
"""Changes that are looked at in a round, at the most."""
_TAKEN_IN_A_ROUND = 4
LEAST_GAIN = 0.5
"""dB, least that a step has to gain; common practice, no source."""
_JOINED = 6  # parts of the build that are changed at once where no single change gains enough
_ADDS = 0.15  # dB, least that one of them has to add
_EXCHANGED = 3  # changes that had no room left, for which an earlier step may be given up
_HOPELESS = 0.12  # share: 10 lg of all without it is hardly LEAST_GAIN, so a change there alone cannot gain that


@dataclass(frozen=True, slots=True)
class _Here:
    """Where a search stands: a text through the verbs, judged with the doubt of its start."""

    text: str
    build: Build
    evaluation: Evaluation
    core: Core
    verdicts: dict[str, Verdict]
    chased: Chased

    @property
    def value(self) -> float:
        """Value that is to be met."""
        return self.evaluation.quantities[self.chased.key].value


@dataclass(frozen=True, slots=True)
class _Tried:
    """A change looked at: what it gains in the sound alone [dB], and what it takes."""

    changes: tuple[Change, ...]
    text: str
    gain: float
    score: float

    @property
    def edits(self) -> tuple[Edit, ...]:
        return tuple(edit for each in self.changes for edit in each.edits)

    @property
    def groups(self) -> set[str]:
        return {each.group for each in self.changes}

    @property
    def parts(self) -> tuple[_Tried, ...]:
        return tuple(replace(self, changes=(each,)) for each in self.changes)

    @property
    def what(self) -> str:
        return "; ".join(each.what for each in self.changes)

    @property
    def where(self) -> str:
        return "; ".join(each.where for each in self.changes)


@dataclass
class Quietening:
    """A search, step by step: iterating gives `Looking` as it goes on and ends with one `Quietened`.

    Each round ranks the parts of the build by their share of what decides, works out the sound with each change that
    can be made there, and takes those that gain most per what they take (`score_of`), one for each part, each through
    the whole build first: a step that breaks a verdict that was met, or a limit that the bare number kept, is not
    taken but told. Where no change alone gains `LEAST_GAIN`, the best changes of several parts are tried as one step.

    Parameters
    ----------
    text, file : str
        Build file.
    verdict : str, optional
        Identifier of the verdict; the worst on a sound when left out.
    start : Evaluation, optional
        Complete one of the text, where there is one.
    until_sure : bool, optional
        Go on until the verdict meets with its margin; else until the bare number does.
    rounds : int, optional
        Most rounds.
    """

    text: str
    file: str
    verdict: str = ""
    start: Evaluation | None = None
    until_sure: bool = True
    rounds: int = ROUNDS
    _steps: list[QuietStep] = field(default_factory=list, init=False)
    _refused: dict[str, Refused] = field(default_factory=dict, init=False)
    _useless: set[tuple[str, str, tuple[Edit, ...]]] = field(default_factory=set, init=False)  # not looked at again
    _kept_back: dict[str, _Tried] = field(default_factory=dict, init=False)
    _first: dict[str, Verdict] = field(default_factory=dict, init=False)
    _tried: int = field(default=0, init=False)
    _is_done: bool = field(default=False, init=False)

    def __iter__(self) -> Iterator[Looking | Quietened]:
        """Search; every problem of the file itself is raised.

        Raises
        ------
        InvalidInput
            If the file is no build, or there is no such verdict, or it is met.
        CannotEvaluate
            If the build as it is lies outside a law.
        """
        yield Looking(0, 0, 0, 0.0, trying="the build as it is")
        here, question = self._begin()
        for number in range(1, self.rounds + 1):
            self._is_done = self._is_enough(here)
            if self._is_done:
                break
            taken = 0
            for each in self._round(here, number):
                if isinstance(each, _Here):
                    here, taken = each, taken + 1
                    yield Looking(number, 0, 0, here.value, self._steps[-1], question.kind, here.build.costs.currency)
                else:
                    yield each
            if not taken:
                after = self._exchanged(here)
                self._is_done = after is None
                if after is None:
                    break
                here = after
                yield Looking(number, 0, 0, here.value, None, question.kind, here.build.costs.currency,
                              tuple(self._steps))  # fmt: skip
        yield Looking(0, 0, 0, here.value, trying="how sure the end is")
        yield self._end(here, question)

    def _begin(self) -> tuple[_Here, Verdict]:
        build, problem = build_from(self.text, self.file)
        if build is None:
            raise InvalidInput(problem)
        nominal, core = evaluate_nominal(build)
        if self.start is None:
            self.start = completed(nominal, changes_of(nominal, core, nominal.build.inputs))
        else:
            self.start = with_build(self.start, nominal.build)  # it may have come from another process without
        verdicts = judge(self.start)
        wanted = open_verdict(self.start, verdicts, self.verdict)
        self.verdict = wanted.id
        chased = chased_as(nominal, wanted.id)
        assert chased is not None
        self._first = {each.id: each for each in verdicts}
        return _Here(self.text, nominal.build, nominal, core, self._first, chased), wanted

    def _is_enough(self, here: _Here) -> bool:
        now = here.verdicts[self.verdict]
        if now.margin is None or now.uncertainty is None:
            return False
        return now.margin >= (2.0 * now.uncertainty if self.until_sure else 0.0)

    def _gain(self, before: float, after: float) -> float:
        return after - before if self._first[self.verdict].sense == "at_least" else before - after

    def _round(self, here: _Here, number: int) -> Iterator[Looking | _Here]:
        """Look at what can be changed, and take the best of each part; gives every place where it then stands."""
        places = [each for each in places_of(here.build, here.chased) if each.changes]
        alone = [each for each in places if each.share >= _HOPELESS] or places[:2]
        found = yield from self._looked(here, number, _spread(alone, IN_A_ROUND))
        ranked = sorted((each for each in found if each.gain >= LEAST_GAIN), key=lambda each: -each.score)
        taken = yield from self._take(here, ranked)
        if taken:
            return
        known = {each.name for each in alone}  # looked at already
        rest = _spread([each for each in places if each.name not in known], IN_A_ROUND // 2)
        found += yield from self._looked(here, number, rest)
        yield from self._take(here, self._together(here, found))

    def _looked(self, here: _Here, number: int, changes: Sequence[Change]) -> Generator[Looking, None, list[_Tried]]:
        found: list[_Tried] = []
        left = [each for each in changes if (each.group, each.what, each.edits) not in self._useless]
        for done, change in enumerate(left, start=1):
            yield Looking(number, done, len(left), here.value, trying=named(change.what, change.where))
            tried = self._look(here, (change,))
            if tried is not None and tried.gain > 0.0:
                found.append(tried)
            else:
                self._useless.add((change.group, change.what, change.edits))
        return found

    def _look(self, here: _Here, changes: tuple[Change, ...]) -> _Tried | None:
        """Sound with some changes, and what they take; `None` where the build cannot have them."""
        self._tried += 1
        try:
            text = edited(here.text, [edit for each in changes for edit in each.edits])
            build, _ = build_from(text, self.file)
            if build is None:
                return None
            heard = couple_sound(build, build, here.core, values_alone=True)
            gain = self._gain(here.value, heard[here.chased.key].value)
            price = price_between(here.build, build) if gain > 0.0 else Price()
        except (InvalidInput, UnreadableDocument, CannotEvaluate, KeyError):
            return None
        return _Tried(changes, text, gain, score_of(gain, price, self._worth(here)))

    def _worth(self, here: _Here) -> float:
        quantity = here.evaluation.quantities.get("budget")
        return 0.0 if quantity is None else quantity.value

    def _together(self, here: _Here, found: Sequence[_Tried]) -> tuple[_Tried, ...]:
        """Changes of several parts at once: the best of each part, as long as each adds to what they gain together."""
        best: dict[str, list[_Tried]] = {}
        for each in found:
            if each.gain > 0.0 and not self._is_refused(each):
                best.setdefault(each.changes[0].group, []).append(each)
        kept = sorted((_most_for_it(each) for each in best.values()), key=lambda one: -one.gain)[:_JOINED]
        whole: _Tried | None = None
        for each in kept:
            tried = self._look(here, (*(whole.changes if whole is not None else ()), *each.changes))
            if tried is not None and tried.gain >= (whole.gain if whole is not None else 0.0) + _ADDS:
                whole = tried
        return () if whole is None or whole.gain < LEAST_GAIN else (whole,)

    def _take(self, here: _Here, ranked: Sequence[_Tried]) -> Generator[_Here, None, int]:
        """Take the best that break nothing, one of each part, until it is enough."""
        changed: set[str] = set()
        taken = 0
        for each in ranked:
            if taken >= _TAKEN_IN_A_ROUND or self._is_enough(here):
                break
            if changed & each.groups or self._is_refused(each):
                continue
            after = self._through(here, each)
            if after is None and len(each.changes) > 1:
                each, after = self._without_breaks(here, each)
            if after is None:
                continue
            taken += 1
            changed |= each.groups
            for part, then in self._one_by_one(here, each, after):
                self._note(here, then, part)
                here = then
                yield here
        return taken

    def _one_by_one(self, here: _Here, tried: _Tried, after: _Here) -> list[tuple[_Tried, _Here]]:
        """A step for each of several changes, so that one can be taken back alone; one where any is a trifle alone."""
        found: list[tuple[_Tried, _Here]] = []
        before = here
        for part in tried.parts:
            then = self._through(before, part, is_known=True)
            if then is None or self._gain(before.value, then.value) < LEAST_GAIN:
                return [(tried, after)]
            found.append((part, then))
            before = then
        return found

    def _without_breaks(self, here: _Here, tried: _Tried) -> tuple[_Tried, _Here | None]:
        """Several changes without those that break something alone, which are told; `None` where that helps nothing."""
        kept: list[Change] = []
        for part in tried.parts:
            alone = self._look(here, part.changes)
            if alone is None:
                continue
            self._through(here, alone, least=0.0)
            if not self._is_refused(alone):
                kept += alone.changes
        if len(kept) in (0, len(tried.changes)):
            return tried, None
        rest = self._look(here, tuple(kept))
        if rest is None or rest.gain < LEAST_GAIN:
            return tried, None
        return rest, self._through(here, rest)

    def _is_refused(self, tried: _Tried) -> bool:
        return f"{tried.where}: {tried.what}" in self._refused

    def _through(
        self, here: _Here, tried: _Tried, *, is_known: bool = False, least: float = LEAST_GAIN
    ) -> _Here | None:
        """Take a change through the whole build; `None` where it breaks something or gains too little by now.

        Of what ``is_known`` to be taken, as part of several changes, nothing is asked.
        """
        try:
            after = self._evaluated(edited(here.text, tried.edits))
        except (InvalidInput, UnreadableDocument):
            return None
        if after is None or is_known:
            return after
        gain = self._gain(here.value, after.value)
        if gain < least:
            return None
        breaks = broken_by(self._first, after.verdicts, self.verdict)
        if not breaks:
            return after
        if len(tried.changes) == 1:
            name = f"{tried.where}: {tried.what}"
            self._refused[name] = Refused(tried.what, tried.where, gain, breaks)
            self._kept_back[name] = tried
        return None

    def _evaluated(self, text: str) -> _Here | None:
        """A text through the verbs; `None` where it cannot be."""
        assert self.start is not None
        build, _ = build_from(text, self.file)
        if build is None:
            return None
        try:
            nominal, core = evaluate_nominal(build)
        except CannotEvaluate:
            return None
        chased = chased_as(nominal, self.verdict)
        if chased is None:
            return None
        lent = with_earlier_shares(nominal, self.start)
        verdicts = {each.id: each for each in judge(lent, provisional=True)}
        return _Here(text, nominal.build, nominal, core, verdicts, chased)

    def _exchanged(self, here: _Here) -> _Here | None:
        """Give up a step that takes room or mass for a change that gains more and had none left, if that helps."""
        refused = sorted(self._kept_back.items(), key=lambda pair: -self._refused[pair[0]].gain)[:_EXCHANGED]
        for name, tried in refused:
            for at, step in enumerate(self._steps):
                rest = (*self._steps[:at], *self._steps[at + 1 :])
                is_bound = step.where == tried.where or any(each.where == step.where for each in rest)
                if is_bound or not (step.price.depth > 0.0 or step.price.mass > 0.0):
                    continue
                edits = [each.edits for each in rest] + [tried.edits]
                after = self._replayed(edits)
                if after is None or self._gain(here.value, after.value) < LEAST_GAIN:
                    continue
                if broken_by(self._first, after.verdicts, self.verdict):
                    continue
                self._again([(each.what, each.where, each.edits) for each in rest], tried)
                del self._refused[name], self._kept_back[name]
                return after
        return None

    def _replayed(self, edits: Sequence[Sequence[Edit]]) -> _Here | None:
        try:
            return self._evaluated(edited(self.text, [one for each in edits for one in each]))
        except (InvalidInput, UnreadableDocument):
            return None

    def _again(self, rest: Sequence[tuple[str, str, tuple[Edit, ...]]], last: _Tried) -> None:
        """Write the steps down anew, in the order in which they now stand."""
        self._steps = []
        here = self._evaluated(self.text)
        for what, where, edits in (*rest, (last.what, last.where, last.edits)):
            assert here is not None
            after = self._evaluated(edited(here.text, edits))
            assert after is not None
            self._note(here, after, _Tried((Change(what, where, edits, where),), after.text, 0.0, 0.0))
            here = after

    def _note(self, here: _Here, after: _Here, tried: _Tried) -> None:
        """Write a step down."""
        gain = self._gain(here.value, after.value)
        price = price_between(here.build, after.build)
        self._steps.append(QuietStep(
            tried.what, tried.where, told_edits(here.text, tried.edits), tried.edits, after.text, after.value, gain,
            score_of(gain, price, self._worth(here)), price, touched_by(here.verdicts, after.verdicts, self.verdict),
        ))  # fmt: skip

    def _end(self, here: _Here, question: Verdict) -> Quietened:
        """How sure the end is, and what is left."""
        assert self.start is not None
        whole = self.start
        if self._steps:
            whole = completed(here.evaluation, changes_of(here.evaluation, here.core, here.build.inputs))
        return quietened(question, whole, judge(whole), tuple(self._steps), tuple(self._refused.values()),
                         here.text, self._tried,
                         is_cut_short=not self._is_done and not self._is_enough(here),
                         recount=to_recount(self.start.build, here.build))  # fmt: skip


def _spread(places: Sequence[Place], most: int) -> tuple[Change, ...]:
    """Changes of several parts, at most so many: of each part in turn, as none may crowd the others out."""
    found: list[Change] = []
    longest = max((len(each.changes) for each in places), default=0)
    for at in range(longest):
        found += [each.changes[at] for each in places if at < len(each.changes)]
    return tuple(found[:most])


def _most_for_it(tried: Sequence[_Tried]) -> _Tried:
    """The one with the best score of those that gain at least half of what the best of them gains."""
    most = max(each.gain for each in tried)
    return max((each for each in tried if each.gain >= 0.5 * most), key=lambda each: each.score)
