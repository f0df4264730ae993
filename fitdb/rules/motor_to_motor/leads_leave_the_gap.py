"""Phase leads that come out of the ends that face each other have to turn the corner in the gap between the motors.
In less than 8 mm they are pressed on a can that spins, and wear through to a short circuit.
"""

from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(
    hanger_width: float,
    inset: float,
    plate_thickness: float,
    can_length: float,
    stub: float,
    other_reach: float,
    lead_exit: str,
    other_lead_exit: str,
    lead_room: float,
) -> float:
    gap = hanger_width - (inset + plate_thickness + can_length + stub) - other_reach
    return gap - (lead_room if "far_end" in (lead_exit, other_lead_exit) else 0.0)


RULE = Rule(
    question="Is there room for the leads between the motors, where leads come out there?",
    needs=(
        "hanger.hanger_width",
        "motor_mount.outer_face_inset",
        "motor_mount.plate_thickness",
        "motor.can_length",
        "motor.stub_length",
        "other_motor.reach_toward_motor",
        "motor.lead_exit",
        "other_motor.lead_exit",
    ),
    quantity=quantity,
    measures="gap between the ends of the two motors, less 5 mm where leads come out of an end in the gap",
    formula="gap − 5 if leads leave at the far end of either motor",
    unit="mm",
    hard=AtLeast(Bound("motor_to_motor.leads_leave_the_gap.least", 3.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    constants=(Constant("lead_room", 5.0, "mm", "common practice, no source"),),
    remedy_hint="turn the motors so that the leads leave at the side",
    examples=(
        Example(
            "12 mm of gap, leads at the far ends",
            {
                "hanger.hanger_width": (191.7, 192.0, 192.3),
                "motor_mount.outer_face_inset": 2.0,
                "motor_mount.plate_thickness": 8.0,
                "motor.can_length": 74.0,
                "motor.stub_length": 6.0,
                "other_motor.reach_toward_motor": 90.0,
                "motor.lead_exit": "far_end",
                "other_motor.lead_exit": "far_end",
            },
            "holds",
            4.0,
        ),
        Example(
            "exactly on the limit",
            {
                "hanger.hanger_width": 188.0,
                "motor_mount.outer_face_inset": 2.0,
                "motor_mount.plate_thickness": 8.0,
                "motor.can_length": 74.0,
                "motor.stub_length": 6.0,
                "other_motor.reach_toward_motor": 90.0,
                "motor.lead_exit": "far_end",
                "other_motor.lead_exit": "mount_end",
            },
            "holds",
            0.0,
        ),
        Example(
            "4 mm of gap, leads at the far ends",
            {
                "hanger.hanger_width": 184.0,
                "motor_mount.outer_face_inset": 2.0,
                "motor_mount.plate_thickness": 8.0,
                "motor.can_length": 74.0,
                "motor.stub_length": 6.0,
                "other_motor.reach_toward_motor": 90.0,
                "motor.lead_exit": "far_end",
                "other_motor.lead_exit": "far_end",
            },
            "fails",
            -4.0,
            two_numbers="the motors keep 4 mm apart, more than the 3 mm they need: two numbers say yes",
        ),
        Example(
            "4 mm of gap, nobody looked where the leads come out",
            {
                "hanger.hanger_width": 184.0,
                "motor_mount.outer_face_inset": 2.0,
                "motor_mount.plate_thickness": 8.0,
                "motor.can_length": 74.0,
                "motor.stub_length": 6.0,
                "other_motor.reach_toward_motor": 90.0,
                "motor.lead_exit": "far_end|mount_end|side",
                "other_motor.lead_exit": "mount_end",
            },
            "undecided",
        ),
        Example(
            "length of the can unread",
            {
                "hanger.hanger_width": 184.0,
                "motor_mount.outer_face_inset": 2.0,
                "motor_mount.plate_thickness": 8.0,
                "motor.stub_length": 6.0,
                "other_motor.reach_toward_motor": 90.0,
                "motor.lead_exit": "far_end",
                "other_motor.lead_exit": "mount_end",
            },
            "undecided",
        ),
    ),
)
