from __future__ import annotations

from collections import Counter

import pytest

from layout.questions.rules import RULES, Rule
from layout.standards.figure import COMMON_PRACTICE


def test_names_are_unique() -> None:
    assert not [n for n, k in Counter(rule.name for rule in RULES).items() if k > 1]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_every_rule_says_why_who_says_so_and_what_to_do(rule: Rule) -> None:
    assert rule.why
    assert rule.remedy
    assert rule.source == COMMON_PRACTICE or len(rule.source) > len("a guide")
    assert rule.need_mm > 0
