"""A job: one car, what the customer wants, the parts chosen, and what came of it."""

from __future__ import annotations

from builder.model.job.batteries import CarBattery, SecondBattery
from builder.model.job.begun import (
    AsBuilt,
    Begun,
    FittedFuse,
    FittedLoom,
    JoinedPin,
    LaidConductor,
    MadeJoint,
    RecordUsed,
)
from builder.model.job.boxes import Box, Coils
from builder.model.job.car import JobCar, Told
from builder.model.job.crossovers import Crossover
from builder.model.job.evidence import BayNote, FollowUp, JobAcceptance, Result, StepTick
from builder.model.job.filters import SetFilters
from builder.model.job.job import Job, JobAmplifier, PadWish
from builder.model.job.looms import JobLoom
from builder.model.job.places import CablePass, Hole, Mount
from builder.model.job.routes import AT_CONVERTER, AT_RADIO, Route
from builder.model.job.speakers import DrivenBy, FactoryLead, JobLead, JobSpeaker, NewLead
from builder.model.job.supply import Distribution, JobBranch, JobSupply, TurnOnLoad
from builder.model.job.treatments import Treatments

__all__ = [
    "AT_CONVERTER",
    "AT_RADIO",
    "AsBuilt",
    "BayNote",
    "Begun",
    "Box",
    "CablePass",
    "CarBattery",
    "Coils",
    "Crossover",
    "Distribution",
    "DrivenBy",
    "FactoryLead",
    "FittedFuse",
    "FittedLoom",
    "FollowUp",
    "Hole",
    "Job",
    "JobAcceptance",
    "JobAmplifier",
    "JobBranch",
    "JobCar",
    "JobLead",
    "JobLoom",
    "JobSpeaker",
    "JobSupply",
    "JoinedPin",
    "LaidConductor",
    "MadeJoint",
    "Mount",
    "NewLead",
    "PadWish",
    "RecordUsed",
    "Result",
    "Route",
    "SecondBattery",
    "SetFilters",
    "StepTick",
    "Told",
    "Treatments",
    "TurnOnLoad",
]
