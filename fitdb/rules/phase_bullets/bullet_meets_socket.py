"""A bullet goes into a socket. Two bullets cannot be joined, and a bare end has to get one first."""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(motor_side: str, controller_side: str) -> str:
    return f"{motor_side}_to_{controller_side}"


RULE = Rule(
    question="Does a bullet meet a socket?",
    needs=("motor_side.bullet_gender", "controller_side.bullet_gender"),
    quantity=quantity,
    measures="what meets what: motor side to controller side",
    formula="word",
    unit="",
    hard=OneOf(
        "phase_bullets.bullet_meets_socket.words", ("plug_to_socket", "socket_to_plug"), "common practice, no source"
    ),
    severity=Severity.NUISANCE,
    remedy_hint="sockets soldered to one side",
    examples=(
        Example(
            "bullets on the motor",
            {"motor_side.bullet_gender": "plug", "controller_side.bullet_gender": "socket"},
            "holds",
        ),
        Example(
            "bullets on both sides",
            {"motor_side.bullet_gender": "plug", "controller_side.bullet_gender": "plug"},
            "fails",
        ),
        Example(
            "a motor cut off its leads",
            {"motor_side.bullet_gender": "bare", "controller_side.bullet_gender": "socket"},
            "fails",
        ),
        Example("not looked at", {"controller_side.bullet_gender": "socket"}, "undecided"),
    ),
)
