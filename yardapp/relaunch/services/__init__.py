"""What can be done before a relaunch: one door."""

from yardapp.relaunch.evidence import PART_OF, DriveNow
from yardapp.relaunch.freezing import Change
from yardapp.relaunch.lines import FOLLOW_UP, PARTS, RELEASES, SETTLED_BY, SHEETS, UNITS, Line
from yardapp.relaunch.models import LaunchAct
from yardapp.relaunch.policies import QUESTIONS, Question
from yardapp.relaunch.services import strands
from yardapp.relaunch.services.answering import Answer, answer_line, give_line, scan_tag, sign_as_owner, take_back
from yardapp.relaunch.services.board import (
    BoardRow,
    PastLaunch,
    StillOpen,
    board,
    launch_of,
    look_over,
    past,
    whole_board,
)
from yardapp.relaunch.services.fault_rows import SEVERITIES, Decision, FaultNow, today
from yardapp.relaunch.services.faults import (
    FOUND,
    FaultSaid,
    accept_fault,
    close_fault,
    end_acceptance,
    fault_by_key,
    faults,
    raise_fault,
    say_who_decides,
)
from yardapp.relaunch.services.launches import call_off, change_hour, plan_launch
from yardapp.relaunch.services.lift import LiftAnswer, may_she_go
from yardapp.relaunch.services.lists import ListNow, add_list, change_list, list_by_name, list_versions, lists
from yardapp.relaunch.services.one_line import add_line, change_line, drop_line, move_line
from yardapp.relaunch.services.policies import Chosen, choices, policies, set_policy
from yardapp.relaunch.services.releasing import changed_since, kept_release, override, release, take_release_back
from yardapp.relaunch.services.sheet import LaunchSheet, launch_sheet
from yardapp.relaunch.settling import Found, LineNow
from yardapp.relaunch.shipped import suggested

__all__ = [
    "FOLLOW_UP",
    "FOUND",
    "PARTS",
    "PART_OF",
    "QUESTIONS",
    "RELEASES",
    "SETTLED_BY",
    "SEVERITIES",
    "SHEETS",
    "UNITS",
    "Answer",
    "BoardRow",
    "Change",
    "Chosen",
    "Decision",
    "DriveNow",
    "FaultNow",
    "FaultSaid",
    "Found",
    "LaunchAct",
    "LaunchSheet",
    "LiftAnswer",
    "Line",
    "LineNow",
    "ListNow",
    "PastLaunch",
    "Question",
    "StillOpen",
    "accept_fault",
    "add_line",
    "add_list",
    "answer_line",
    "board",
    "call_off",
    "change_hour",
    "change_line",
    "change_list",
    "changed_since",
    "choices",
    "close_fault",
    "drop_line",
    "end_acceptance",
    "fault_by_key",
    "faults",
    "give_line",
    "kept_release",
    "launch_of",
    "launch_sheet",
    "list_by_name",
    "list_versions",
    "lists",
    "look_over",
    "may_she_go",
    "move_line",
    "override",
    "past",
    "plan_launch",
    "policies",
    "raise_fault",
    "release",
    "say_who_decides",
    "scan_tag",
    "set_policy",
    "sign_as_owner",
    "strands",
    "suggested",
    "take_back",
    "take_release_back",
    "today",
    "whole_board",
]
