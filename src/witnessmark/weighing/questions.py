"""The questions that have a likelihood ratio, and the ratio itself for a batch.

The LR of a question is its posterior odds over its prior odds, both under the
same rows. For identity that is P(findings | own) over P(findings | not own),
which needs no odds of the bearer; the others integrate over them.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import PaperState
from witnessmark.catalogue import said
from witnessmark.codebook.marks import Mark
from witnessmark.codebook.records import Assembly
from witnessmark.weighing.evaluate import Joints
from witnessmark.weighing.network import Network
from witnessmark.weighing.nodes import CharacterSource, NodeKind
from witnessmark.weighing.records import PropositionPair, Question

Array = NDArray[np.float64]

TINY = 1e-300


@dataclass(frozen=True, slots=True)
class Asked:
    """One question: the variable it is about and which of its states make it true.

    `split_node` is the node whose source tells replaced from struck later.
    """

    question: Question
    about: str
    pair: PropositionPair
    variable: str
    true: tuple[bool, ...]
    split_node: int | None = None


def questions_of(car: CarMarks, network: Network) -> tuple[Asked, ...]:
    """Identity, each plate and paper read, configuration, each other assembly."""
    return (
        _identity(network),
        *_plates_and_papers(car, network),
        Asked(
            Question.CONFIGURATION,
            "car",
            PropositionPair(
                said("this car was built as claimed"), said("this car was not built as claimed")
            ),
            "K",
            (True, False),
        ),
        *(_assembly(network, assembly) for assembly in network.assemblies),
    )


def _identity(network: Network) -> Asked:
    bearer = network.bearer
    pair = PropositionPair(
        said("this {part} left the factory as the claimed car", part=bearer.name),
        said("this {part} did not leave the factory as the claimed car", part=bearer.name),
    )
    return Asked(Question.IDENTITY, bearer.id, pair, "B", (True, False))


def _plates_and_papers(car: CarMarks, network: Network) -> list[Asked]:
    """One question for each plate and paper that was read or is in hand."""
    states = (PaperState.IN_HAND, PaperState.COPY)
    in_hand = {paper.mark for paper in car.casefile.papers if paper.state in states}
    asked = []
    for place, node in enumerate(network.nodes):
        mark = node.marks[0]
        kind = {NodeKind.PLATE: Question.PLATE, NodeKind.PAPER: Question.PAPER}.get(node.kind)
        if kind is None or not (car.of(mark.id) or mark.id in in_hand):
            continue
        pair = _plate_pair(mark) if kind is Question.PLATE else _paper_pair(mark)
        true = tuple(state.source is CharacterSource.OWN for state in node.states)
        asked.append(Asked(kind, mark.id, pair, f"S:{place}", true))
    return asked


def _plate_pair(mark: Mark) -> PropositionPair:
    return PropositionPair(
        said("this {plate} was made by the factory for the claimed car", plate=mark.name),
        said("this {plate} was made later, or is another car's", plate=mark.name),
    )


def _paper_pair(mark: Mark) -> PropositionPair:
    return PropositionPair(
        said("this {paper} was written for the claimed car", paper=mark.name),
        said("this {paper} was written later, or is another car's", paper=mark.name),
    )


def _assembly(network: Network, assembly: Assembly) -> Asked:
    """Was it fitted at the factory; split by its first struck mark."""
    split = next(
        (
            place
            for place, node in enumerate(network.nodes)
            if node.kind is NodeKind.ASSEMBLY_MARK
            and node.assembly == assembly.id
            and not node.is_cast
        ),
        None,
    )
    pair = PropositionPair(
        said("this {part} was fitted to this car at the factory", part=assembly.name),
        said("this {part} was not fitted to this car at the factory", part=assembly.name),
    )
    variable = f"A:{assembly.id}"
    return Asked(Question.ASSEMBLY, assembly.id, pair, variable, (True, False), split)


def split_joint(joints: Joints, asked: Asked) -> tuple[Array, Array]:
    """Joint of the variable being true, and of being false, each (batch,)."""
    joint = joints.variables[asked.variable]
    true = np.array(asked.true)
    return joint[:, true].sum(axis=1), joint[:, ~true].sum(axis=1)


def log10_ratio(evidence: Joints, prior: Joints, asked: Asked) -> Array:
    """log10 LR of a question for every case of the batch, shape (batch,)."""
    yes, no = split_joint(evidence, asked)
    prior_yes, prior_no = split_joint(prior, asked)
    ratio: Array = (
        np.log10(np.maximum(yes, TINY))
        - np.log10(np.maximum(no, TINY))
        - np.log10(prior_yes)
        + np.log10(prior_no)
    )
    return ratio


def log10_ratio_against(
    evidence: Joints, prior: Joints, asked: Asked, network: Network, made: bool
) -> Array:
    """log10 LR of an assembly being own against its not being own and its number
    struck later (`made`) or not (`replaced`), shape (batch,)."""
    assert asked.split_node is not None
    yes, prior_yes = split_joint(evidence, asked)[0], split_joint(prior, asked)[0]
    no = _not_own(evidence, asked.split_node, network, made)
    prior_no = _not_own(prior, asked.split_node, network, made)
    ratio: Array = (
        np.log10(np.maximum(yes, TINY))
        - np.log10(np.maximum(no, TINY))
        - np.log10(prior_yes)
        + np.log10(np.maximum(prior_no, TINY))
    )
    return ratio


def _not_own(joints: Joints, place: int, network: Network, made: bool) -> Array:
    """Joint of the assembly not being own and the node's source being made, or not."""
    joint = joints.nodes[place]
    axes = network.node_factors[place].axes
    joint = np.take(joint, 1, axis=1 + axes.index("A"))
    summed = joint.sum(axis=tuple(range(1, joint.ndim - 1)))
    is_made = np.array([s.source is CharacterSource.MADE for s in network.nodes[place].states])
    chosen: Array = summed[:, is_made if made else ~is_made].sum(axis=1)
    return chosen
