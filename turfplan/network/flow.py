"""Finds the smallest minimum cut of a graph."""

from collections import deque

INFINITE = 1 << 60


class Graph:
    """A directed graph with capacities; node 0 is the source, node 1 the sink."""

    def __init__(self, nodes: int) -> None:
        self.outgoing: list[list[int]] = [[] for _ in range(nodes)]
        self.heads: list[int] = []
        self.room: list[int] = []

    def connect(self, tail: int, head: int, forth: int, back: int = 0) -> None:
        """Add an arc of capacity `forth`, and `back` in the other direction."""
        self.outgoing[tail].append(len(self.heads))
        self.outgoing[head].append(len(self.heads) + 1)
        self.heads += (head, tail)
        self.room += (forth, back)


def source_side(graph: Graph) -> list[bool]:
    """Which nodes are on the source's side of the minimum cut whose source side is smallest.

    Maximum flow by shortest augmenting paths in layers (Dinitz, 1970); what the source still
    reaches is that side.
    """
    while True:
        distances = _distances(graph)
        if distances[0] == -1:
            return _reached(graph)
        _fill(graph, distances)


def _distances(graph: Graph) -> list[int]:
    """The least number of arcs with room from each node to the sink, as far as the source needs
    them; -1: none."""
    outgoing, heads, room = graph.outgoing, graph.heads, graph.room
    distances = [-1] * len(outgoing)
    distances[1] = 0
    queue = deque([1])
    while queue and distances[0] == -1:
        head = queue.popleft()
        farther = distances[head] + 1
        for arc in outgoing[head]:
            tail = heads[arc]
            if distances[tail] == -1 and room[arc ^ 1]:
                distances[tail] = farther
                queue.append(tail)
    return distances


def _reached(graph: Graph) -> list[bool]:
    """Whether the source reaches each node over arcs with room."""
    reached = [False] * len(graph.outgoing)
    reached[0] = True
    stack = [0]
    while stack:
        for arc in graph.outgoing[stack.pop()]:
            head = graph.heads[arc]
            if graph.room[arc] and not reached[head]:
                reached[head] = True
                stack.append(head)
    return reached


def _fill(graph: Graph, distances: list[int]) -> None:
    """Push flow along shortest paths until none is left."""
    outgoing, heads, room = graph.outgoing, graph.heads, graph.room
    following = [0] * len(outgoing)
    path: list[int] = []
    node = 0
    while True:
        if node == 1:
            amount = min([room[arc] for arc in path])
            for arc in path:
                room[arc] -= amount
                room[arc ^ 1] += amount
            first_full = next(place for place, arc in enumerate(path) if not room[arc])
            node = heads[path[first_full] ^ 1]
            del path[first_full:]
        nearer = distances[node] - 1
        arcs = outgoing[node]
        for place in range(following[node], len(arcs)):
            arc = arcs[place]
            if room[arc] and distances[heads[arc]] == nearer:
                following[node] = place
                path.append(arc)
                node = heads[arc]
                break
        else:
            following[node] = len(arcs)
            if not path:
                return
            node = heads[path.pop() ^ 1]
            following[node] += 1
