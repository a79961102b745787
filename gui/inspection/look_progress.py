"""How far a look-over came and what it found, without a window."""

from __future__ import annotations

from dataclasses import dataclass, replace

from core.catalogue import inspection
from core.catalogue.inspection import LookStep
from core.model.names import AnyFinding, FormatName


@dataclass(frozen=True, slots=True)
class LookResult:
    """What a look-over found."""

    findings: tuple[AnyFinding, ...]
    looked: int
    """Steps gone through."""
    of: int
    note: str
    """How long the tape waits before it is played, when it came in cold or hot."""


@dataclass(frozen=True, slots=True)
class LookSubject:
    """The cassette that is looked over. A look-over broken off goes on when its subject comes back."""

    key: str
    title: str
    format: FormatName
    known: tuple[AnyFinding, ...] = ()


@dataclass(frozen=True, slots=True)
class LookProgress:
    """The step on show and all findings so far; every change gives a new progress."""

    steps: tuple[LookStep, ...]
    found: frozenset[AnyFinding] = frozenset()
    at: int = 0
    """Place of the step on show; the number of steps at the end."""
    furthest: int = 0
    """The most steps gone through so far."""
    stopped: bool = False
    """Whether a finding ended the look-over early."""
    temperature: str = ""
    """What was typed in the field of the temperature."""

    @property
    def step(self) -> LookStep | None:
        """The step on show; None at the end."""
        return self.steps[self.at] if self.at < len(self.steps) else None

    @property
    def has_finding_here(self) -> bool:
        """Whether something that the step on show looks for was found."""
        return self.step is not None and not self.found.isdisjoint(self.step.looks_for)

    @property
    def is_only_to_do(self) -> bool:
        """Whether the step on show looks for nothing: it is done, not answered."""
        step = self.step
        return step is not None and not step.looks_for and step.key != inspection.COLD

    @property
    def stop(self) -> str:
        """What to do at once, where a finding ended the look-over early; empty otherwise."""
        return next((step.stop for step in self.steps if step.stop), "") if self.stopped else ""

    def advanced(self) -> LookProgress:
        """The step on show is done; a finding that stops the look-over leads to its end."""
        step = self.step
        if step is None:
            return self
        stopped = bool(step.stop) and self.has_finding_here
        at = len(self.steps) if stopped else self.at + 1
        return replace(self, at=at, furthest=max(self.furthest, self.at + 1), stopped=stopped)

    def stepped_back(self) -> LookProgress:
        """One step back; from the end, to the last step that was looked at."""
        before = self.furthest if self.step is None else self.at
        return replace(self, at=max(before - 1, 0))

    def marked(self, finding: AnyFinding, seen: bool) -> LookProgress:
        """With this finding, or without it."""
        return replace(self, found=self.found | {finding} if seen else self.found - {finding})

    def at_step(self, key: str) -> LookProgress:
        """On the step with this key; StopIteration when there is none."""
        return replace(self, at=next(n for n, step in enumerate(self.steps) if step.key == key))

    def result(self, format: FormatName, note: str) -> LookResult:
        """Everything found, what changes most first; the step on show counts as gone through."""
        looked = self.furthest if self.step is None else max(self.furthest, self.at + 1)
        return LookResult(self.ranked(format), looked, len(self.steps), note)

    def ranked(self, format: FormatName) -> tuple[AnyFinding, ...]:
        """Everything found so far, what changes most first."""
        return tuple(each.finding for each in inspection.ranked(self.found, format))
