"""The smallest minimum cut of a graph."""

from itertools import product
from random import Random

from turfplan.network.flow import Graph, _distances, _fill, _reached, source_side

Arcs = list[tuple[int, int, int, int]]


def graph_of(nodes: int, arcs: Arcs) -> Graph:
    """A graph of arcs: tail, head, capacity forth and back."""
    graph = Graph(nodes)
    for arc in arcs:
        graph.connect(*arc)
    return graph


def smallest_side(nodes: int, arcs: Arcs) -> list[bool]:
    """By trying every set of nodes that holds the source and not the sink: the least capacity that
    leaves it, then the fewest nodes.
    """
    sides = [(True, False, *rest) for rest in product((False, True), repeat=nodes - 2)]

    def cut(side: tuple[bool, ...]) -> int:
        forth = sum(f for tail, head, f, _ in arcs if side[tail] and not side[head])
        return forth + sum(b for tail, head, _, b in arcs if side[head] and not side[tail])

    return list(min(sides, key=lambda side: (cut(side), sum(side))))


def test_an_arc_has_its_two_directions_beside_each_other() -> None:
    """The way back has no room where none is given."""
    graph = graph_of(3, [(0, 2, 5, 0), (2, 1, 4, 3)])
    graph.connect(0, 1, 9)
    assert graph.heads == [2, 0, 1, 2, 1, 0]
    assert graph.room == [5, 0, 4, 3, 9, 0]
    assert graph.outgoing == [[0, 4], [3, 5], [1, 2]]


def test_distances_count_arcs_to_the_sink() -> None:
    """As far as the source needs them; an arc without room leads nowhere."""
    graph = graph_of(6, [(0, 2, 1, 0), (2, 3, 1, 0), (3, 1, 1, 0), (4, 1, 0, 0), (5, 0, 1, 0)])
    assert _distances(graph) == [3, 0, 2, 1, -1, -1]
    assert _distances(graph_of(3, [(2, 1, 1, 0)])) == [-1, 0, 1]


def test_the_source_reaches_what_has_room_before_it() -> None:
    """Two arcs on, and not beyond a full one."""
    graph = graph_of(5, [(0, 2, 1, 0), (2, 3, 1, 0), (3, 4, 0, 0), (4, 1, 1, 0)])
    assert _reached(graph) == [True, False, True, True, False]


def test_flow_is_pushed_along_the_shortest_paths_until_they_are_full() -> None:
    """Two paths of two arcs, with 3 and 1 to spare on the narrower; a longer one is left."""
    arcs = [(0, 2, 5, 0), (2, 1, 3, 0), (0, 3, 1, 0), (3, 1, 7, 2), (2, 4, 9, 0), (4, 3, 9, 0)]
    graph = graph_of(5, arcs)
    _fill(graph, _distances(graph))
    assert graph.room == [2, 3, 0, 3, 0, 1, 6, 3, 9, 0, 9, 0]
    assert _distances(graph) == [4, 0, 3, 1, 2]
    _fill(graph, _distances(graph))
    assert graph.room == [0, 5, 0, 3, 0, 1, 4, 5, 7, 2, 7, 2]


def test_a_path_that_ends_before_the_sink_is_left() -> None:
    """The first way leads to a node as near that is full behind; the second is taken."""
    arcs = [(0, 2, 4, 0), (2, 1, 0, 0), (0, 3, 4, 0), (3, 1, 2, 0)]
    graph = graph_of(4, arcs)
    _fill(graph, [2, 0, 1, 1])
    assert graph.room == [4, 0, 0, 0, 2, 2, 0, 2]


def test_the_narrowest_place_is_cut() -> None:
    """A row of three arcs of 5, 2 and 4: what lies before the 2 is on the source's side."""
    assert source_side(graph_of(4, [(0, 2, 5, 0), (2, 3, 2, 0), (3, 1, 4, 0)])) == [
        True,
        False,
        True,
        False,
    ]


def test_of_equal_cuts_the_one_nearest_the_source_is_taken() -> None:
    """Two arcs of 3 in a row."""
    assert source_side(graph_of(3, [(0, 2, 3, 0), (2, 1, 3, 0)])) == [True, False, False]


def test_flow_that_was_sent_one_way_can_be_sent_another() -> None:
    """The middle arc is taken by the shortest way first and given back: all 2 get through."""
    arcs = [(0, 2, 1, 0), (0, 3, 1, 0), (2, 3, 1, 0), (2, 1, 1, 0), (3, 1, 1, 0)]
    assert source_side(graph_of(4, arcs)) == [True, False, False, False]


def test_cuts_of_many_graphs_are_those_found_by_trying_all() -> None:
    """Forty graphs of three to six nodes, with arcs both ways."""
    random = Random(7)
    for _ in range(40):
        nodes = random.randint(3, 6)
        arcs = [
            (tail, head, random.randint(0, 6), random.choice([0, 0, 3]))
            for tail in range(nodes)
            for head in range(nodes)
            if tail != head and random.random() < 0.6
        ]
        assert source_side(graph_of(nodes, arcs)) == smallest_side(nodes, arcs), arcs
