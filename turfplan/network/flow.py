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

    Maximum flow by shortest augmenting paths in layers (Dinitz, 1970); what the source still reaches is that side.
    """
    while True:
        depths = _depths(graph)
        if depths[1] < 0:
            return [depth >= 0 for depth in depths]
        _fill(graph, depths)


def _depths(graph: Graph) -> list[int]:
    """The number of arcs from the source to each node over arcs with room, -1 where there is no way.

    The search stops one layer after the sink is met; without a way to the sink it is complete.
    """
    outgoing, heads, room = graph.outgoing, graph.heads, graph.room
    depths = [-1] * len(outgoing)
    depths[0] = 0
    queue = deque([0])
    while queue:
        tail = queue.popleft()
        if 0 <= depths[1] <= depths[tail]:
            break
        for arc in outgoing[tail]:
            head = heads[arc]
            if depths[head] < 0 and room[arc]:
                depths[head] = depths[tail] + 1
                queue.append(head)
    return depths


def _fill(graph: Graph, depths: list[int]) -> None:
    """Push flow along the layers until none gets through."""
    outgoing, heads, room = graph.outgoing, graph.heads, graph.room
    following = [0] * len(outgoing)
    path: list[int] = []
    node = 0
    while True:
        if node == 1:
            amount = min(room[arc] for arc in path)
            for arc in path:
                room[arc] -= amount
                room[arc ^ 1] += amount
            first_full = next(place for place, arc in enumerate(path) if not room[arc])
            node = heads[path[first_full] ^ 1]
            del path[first_full:]
        arcs = outgoing[node]
        while following[node] < len(arcs):
            arc = arcs[following[node]]
            if room[arc] and depths[heads[arc]] == depths[node] + 1:
                path.append(arc)
                node = heads[arc]
                break
            following[node] += 1
        else:
            if not path:
                return
            node = heads[path.pop() ^ 1]
            following[node] += 1
