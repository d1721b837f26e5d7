"""What to look at on the car, in which order, and what to keep back of it."""

from witnessmark.plan.marks import DOT
from witnessmark.plan.records import (
    Characters,
    Claimed,
    CodeExpected,
    FeaturePlan,
    FieldPlan,
    MarkPlan,
    OutcomePlan,
    PaperPlan,
    Reach,
    SitePlan,
    Variation,
    VisitPlan,
)
from witnessmark.plan.visit import visit_plan

__all__ = [
    "DOT",
    "Characters",
    "Claimed",
    "CodeExpected",
    "FeaturePlan",
    "FieldPlan",
    "MarkPlan",
    "OutcomePlan",
    "PaperPlan",
    "Reach",
    "SitePlan",
    "Variation",
    "VisitPlan",
    "visit_plan",
]
