"""What a day cannot be shorter than, from any standing on: hands and shared things, the longest chain, set-ups still to be made."""

from __future__ import annotations

from dataclasses import dataclass

from twomarks.errors import NoSolutionError
from twomarks.planning.day.board import Board, Standing
from twomarks.planning.day.problem import Task, Value

__all__ = ["Bounds"]

HANDS = "hands"


class Bounds:
    """Bounds from below on the length of a day; each counts only what must still happen.

    A spare task may be left out, and counts only where a later task needs what nothing but such a task brings about. Where
    one pair of hands is there, the wait inside a block is idle but for the looking that may be done in it.
    """

    def __init__(self, board: Board) -> None:
        self.board = board
        problem = board.problem
        self.tails = _tails(board)
        self.within = [[_within(problem.tasks, chain, at) for at in range(len(chain) + 1)] for chain in problem.chains]
        self.work = {name: [_sums(problem.tasks, chain, name) for chain in problem.chains] for name in problem.capacity}
        alone = problem.capacity.get(HANDS) == 1
        self.idle = [_idle(problem.tasks, chain, alone) for chain in problem.chains]
        self.looks = [_looks(problem.tasks, chain) for chain in problem.chains]
        self.set_ups = _set_ups(board)

    def least(self, standing: Standing) -> float:
        """Return what the day cannot be shorter than after `standing` [min]."""
        board, now = self.board, standing.now
        least = board.length(standing)
        for chain, place in enumerate(standing.places):
            after, work_within = self.within[chain][place]
            begin = max(standing.ready[chain], max(standing.free[chain], now) + work_within, now)
            least = max(least, begin + self.tails[chain][after])
        tasks = board.problem.tasks
        for name, count in board.problem.capacity.items():
            still = sum(sums[place] for sums, place in zip(self.work[name], standing.places, strict=True))
            still += self._set_up_min(standing, name)
            if name == HANDS:
                still += self._idle_min(standing)
            if still <= 0.0:
                continue
            running = 0.0
            for free, last in zip(standing.free, standing.last, strict=True):
                if last >= 0 and free > now:
                    running += (free - now) * tasks[last].uses.get(name, 0)
            least = max(least, now + (still + running) / count)
        return least

    def _idle_min(self, standing: Standing) -> float:
        idle = sum(sums[place] for sums, place in zip(self.idle, standing.places, strict=True))
        return max(0.0, idle - sum(sums[place] for sums, place in zip(self.looks, standing.places, strict=True))) if idle else 0.0

    def _set_up_min(self, standing: Standing, resource: str) -> float:
        total = 0.0
        for one in self.set_ups:
            if resource not in one.uses:
                continue
            until = one.needed_until if standing.values[one.variable] != one.value else one.other_until
            if any(place <= last for place, last in zip(standing.places, until, strict=True)):
                total += one.shortest_min
        return total


@dataclass(frozen=True, slots=True)
class _SetUp:
    """A value that only spare tasks bring about, and the shortest of them.

    For every chain: the last place that needs it, and the last place that needs another value before that.
    """

    variable: int
    value: Value
    shortest_min: float
    needed_until: tuple[int, ...]
    other_until: tuple[int, ...]
    uses: frozenset[str]


def _active(task: Task) -> float:
    return 0.0 if task.spare else task.active_min


def _within(tasks: tuple[Task, ...], chain: tuple[int, ...], at: int) -> tuple[int, float]:
    """Return the next place from `at` on that is not within the wait before it, and the work within that wait until there."""
    total = 0.0
    while at < len(chain) and tasks[chain[at]].within:
        total += _active(tasks[chain[at]])
        at += 1
    return at, total


def _tails(board: Board) -> list[list[float]]:
    """Return, for every place of every chain, the least time from its beginning to the end of all that rests on it [min]."""
    problem = board.problem
    resting: dict[int, list[int]] = {}
    for number, task in enumerate(problem.tasks):
        for one in task.after:
            resting.setdefault(one, []).append(number)
    known: dict[int, float] = {}
    under_way: set[int] = set()
    stack = [task for chain in problem.chains for task in chain]
    while stack:
        number = stack[-1]
        task, chain, at = problem.tasks[number], problem.chains[board.chain_of[number]], board.place_of[number]
        after, work_within = _within(problem.tasks, chain, at + 1)
        following = [chain[after]] if after < len(chain) else []
        missing = [one for one in (*following, *resting.get(number, ())) if one not in known]
        if missing:
            if number in under_way:
                raise NoSolutionError("day.in_a_circle", task=task.name)
            under_way.add(number)
            stack += missing
            continue
        stack.pop()
        wait = 0.0 if task.spare else task.wait_min
        here = _active(task) + max(wait, 0.0 if task.within else work_within)
        known[number] = here + max((known[one] for one in (*following, *resting.get(number, ()))), default=0.0)
    return [[*(known[task] for task in chain), 0.0] for chain in problem.chains]


def _sums(tasks: tuple[Task, ...], chain: tuple[int, ...], name: str) -> list[float]:
    sums = [0.0]
    for number in reversed(chain):
        sums.append(sums[-1] + _active(tasks[number]) * tasks[number].uses.get(name, 0))
    return sums[::-1]


def _idle(tasks: tuple[Task, ...], chain: tuple[int, ...], alone: bool) -> list[float]:
    """Return, for every place, how long the hands must still stand idle in waits that no other work may fill [min]."""
    sums = [0.0]
    for at in range(len(chain) - 1, -1, -1):
        task = tasks[chain[at]]
        after, work_within = _within(tasks, chain, at + 1)
        together = all(tasks[number].block == task.block for number in chain[at : after + 1])
        parted = not alone or not task.block or task.within or after >= len(chain) or not together
        sums.append(sums[-1] + (0.0 if parted else max(0.0, task.wait_min - work_within)))
    return sums[::-1]


def _looks(tasks: tuple[Task, ...], chain: tuple[int, ...]) -> list[float]:
    sums = [0.0]
    for number in reversed(chain):
        sums.append(sums[-1] + (tasks[number].active_min if tasks[number].looks else 0.0))
    return sums[::-1]


def _set_ups(board: Board) -> list[_SetUp]:
    """Return the values that only spare tasks bring about; a task counts for one value only, so that no minute counts twice.

    A spare task asks for what it brings as any other does for what it needs: either it holds, or the task is worked.
    """
    problem = board.problem
    givers: dict[tuple[int, Value], list[int]] = {}
    for number in range(len(problem.tasks)):
        for pair in board.sets[number]:
            givers.setdefault(pair, []).append(number)
    counted: set[int] = set()
    found = []
    for pair, those in sorted(givers.items(), key=lambda item: (len(item[1]), str(item[0]))):
        variable, value = pair
        spare = all(problem.tasks[one].spare for one in those)
        if not spare or counted & set(those) or board.serves.get(pair) or variable not in board.strict:
            continue
        places = [_asked(board, chain, variable) for chain in problem.chains]
        needed = tuple(max((at for at, asked in chain if asked == value), default=-1) for chain in places)
        other = tuple(
            max((at for at, asked in chain if asked != value and at < last), default=-1) for chain, last in zip(places, needed, strict=True)
        )
        shortest = min(problem.tasks[one].active_min for one in those)
        if shortest > 0.0 and max(needed) >= 0:
            counted |= set(those)
            uses = frozenset(name for name in problem.capacity if all(problem.tasks[one].uses.get(name) for one in those))
            found.append(_SetUp(variable, value, shortest, needed, other, uses))
    return found


def _asked(board: Board, chain: tuple[int, ...], variable: int) -> list[tuple[int, Value]]:
    """Return the places of a chain that need a value of `variable`, each with the value that it needs."""
    found = []
    for at, number in enumerate(chain):
        pairs = board.brings[number] if board.problem.tasks[number].spare else board.needs[number]
        found += [(at, value) for name, value in pairs if name == variable and not board.serves.get((name, value))]
    return found
