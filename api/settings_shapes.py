"""The shapes of the settings sheet: what to set in the controllers, and the link that sets it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api.fit_shapes import RangeShape
from api.shapes import Revision, Shape, Stamp, Words

GroupWord = Literal["pack", "brake", "motor", "volts", "speed", "heat", "sensors", "together", "first_ride"]


class SettingsPlan(Shape):
    id: str
    title: str


class SettingsGroup(Shape):
    id: GroupWord
    title: str


class SettingLinkShape(Shape):
    id: str
    name: str = Field(description="The part or the habit of the trade that bounds the line, in words.")
    seat: str = Field(description="Empty where no part is behind it.")
    part: str = Field(description="Empty where no part is behind it.")
    value: RangeShape
    worked: str = Field(description="How its number was worked out.")
    source: str
    assumed: bool = Field(description="A reading behind it was not taken: what may be stands in.")


class SetNowShape(Shape):
    seats: Words
    value: float | None = Field(description="In `unit`; null for a word.")
    word: str = Field(description="Empty for a number.")
    unit: str
    text: str
    beyond: bool = Field(description="It has to be changed.")


class SettingChange(Shape):
    state: Literal["not_known", "within", "differs", "beyond", "no_line"] = Field(
        description="Nobody told what is set; it may stay; another word; beyond the line; nothing sets this line."
    )
    sentence: str


class SettingBefore(Shape):
    value: RangeShape | None
    printed: float | None = Field(description="In the line's unit.")
    set_by: SettingLinkShape | None
    difference: float | None = Field(description="Now less before, in the line's unit; null where either is unknown.")
    sentence: str


class MissingShape(Shape):
    name: str = Field(description="The name under which a plan takes the reading.")
    seat: str
    part: str
    attribute: str = Field(description="Empty where no part is named at the seat.")
    title: str
    how: str


class ToReadShape(MissingShape):
    lines: Words = Field(description="Ids of the lines that it may move.")


class SettingLineShape(Shape):
    id: str
    group: GroupWord
    title: str
    unit: str = Field(description="Of `printed`; empty for a word or something to do.")
    side: Literal["at_most", "at_least", "as_told"]
    seats: Words = Field(description="The motors that it is for; empty for all alike.")
    value: RangeShape | None = Field(description="What the links leave; null where none is known, and for words.")
    printed: float | None = Field(description="In `unit`: the careful end, rounded as it is typed.")
    printed_text: str = Field(description="The same in words; empty where nothing sets it.")
    word: str = Field(description="The setting where it is no number; else empty.")
    task: str = Field(description="What to do, where the line is no value; else empty.")
    is_bound: bool = Field(description="A reading is missing: the value is not the last word.")
    set_by: SettingLinkShape | None
    others: list[SettingLinkShape] = Field(description="Every other link, nearest first.")
    now: list[SetNowShape] = Field(description="What is set now, as the plan's controllers say.")
    change: SettingChange
    before: SettingBefore | None = Field(description="The same line of the board as it stands.")
    missing: list[MissingShape] = Field(description="Readings that may still move it, to the careful side.")
    notes: Words
    caution: str = Field(description="Stands beside the line; may be empty.")
    source: str
    sentence: str


class SettingsAnswer(Shape):
    plan: SettingsPlan
    usable: bool = Field(description="false: do not set a controller by this sheet; `head` says why.")
    state: Literal["ready", "changes", "readings", "blocked", "clash"]
    head: Words = Field(description="What stands over the sheet.")
    changes: Words = Field(description="Changes to the board that the sheet is for.")
    settings_of_the_verdict: Words = Field(description="What the answer to the swap would set otherwise.")
    clashes_as_it_stood: Words = Field(description="Joints that clash as they stood, and that the plan leaves so.")
    until: Words = Field(description="Readings to take, or joints that clash, before it may be used.")
    sentence: str
    motors: Words = Field(description="Seats of the motors that are driven.")
    channels: int = Field(description="Channels that drive a motor.")
    idle_channels: int
    notes: Words
    groups: list[SettingsGroup] = Field(description="In their order, with their titles.")
    lines: list[SettingLineShape]
    to_read: list[ToReadShape] = Field(description="Every missing reading once, that of most lines first.")
    cautions: Words = Field(description="Stand beside the sheet; show them with it.")
    catalogue_revision: Revision
    rulebook_stamp: Stamp
    date: str
