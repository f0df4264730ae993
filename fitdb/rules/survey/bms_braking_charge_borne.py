"""What a protection board lets back in. A board with one common port sends the braking charge through its charge
path, which is the weak one; with separate ports the charge goes back through the discharge path, the way it came.
"""

from fitdb.formulas.pack_flow import bms_charge_borne
from fitdb.model.rule import SurveyLine

LINE = SurveyLine(
    target="bms.braking_charge_borne",
    needs=("bms*.charge_current", "bms*.link_current", "bms*.port_layout"),
    quantity=bms_charge_borne,
    measures="braking charge that the BMS lets in: its charge path if the port is common, else its discharge path",
    formula="I_BMS = Σ I_charge (common port) or I_discharge (separate ports)",
    unit="A",
    source="common practice, no source",
    examples=(
        (
            {
                "bms*.charge_current": (10.0,),
                "bms*.link_current": (60.0,),
                "bms*.port_layout": ("common_port",),
            },
            10.0,
        ),
        (
            {
                "bms*.charge_current": (10.0,),
                "bms*.link_current": (60.0,),
                "bms*.port_layout": ("separate_ports",),
            },
            60.0,
        ),
    ),
)
