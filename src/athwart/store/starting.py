"""A first brief from a handful of answers: everything else is assumed, and says so beside the figure.

The assumed proportions are ordinary ones for each kind of boat, chosen here and from no source; they are there to be replaced
by measured ones, and the comments ask for it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from athwart.store.amend import scalar
from athwart.units import Kilogram, Metre, parse, show

SEA_WATER = 1025.0


@dataclass(frozen=True, slots=True)
class Proportions:
    """A kind of boat in shares of its length; ``fullness`` is displaced volume over length, beam and draught."""

    beam: float
    draught: float
    fullness: float
    freeboard: float
    house_length: float
    house_height: float


PROPORTIONS: dict[str, Proportions] = {
    "motor yacht, displacement": Proportions(0.31, 0.082, 0.23, 0.105, 0.45, 0.11),
    "motor yacht, planing": Proportions(0.30, 0.075, 0.22, 0.110, 0.45, 0.10),
    "sailing yacht": Proportions(0.32, 0.160, 0.09, 0.095, 0.40, 0.04),
    "passenger boat": Proportions(0.27, 0.065, 0.27, 0.080, 0.65, 0.11),
    "workboat": Proportions(0.30, 0.095, 0.30, 0.090, 0.25, 0.16),
    "fishing boat": Proportions(0.32, 0.110, 0.30, 0.100, 0.25, 0.17),
    "trawler yacht": Proportions(0.33, 0.105, 0.27, 0.120, 0.45, 0.14),
    "pilot boat": Proportions(0.30, 0.090, 0.24, 0.100, 0.35, 0.14),
    "survey boat": Proportions(0.30, 0.085, 0.25, 0.095, 0.40, 0.14),
    "houseboat": Proportions(0.32, 0.055, 0.45, 0.060, 0.75, 0.19),
    "tender": Proportions(0.34, 0.075, 0.24, 0.100, 0.20, 0.10),
    "barge": Proportions(0.22, 0.055, 0.75, 0.050, 0.55, 0.07),
    "catamaran": Proportions(0.50, 0.085, 0.15, 0.110, 0.50, 0.09),
}


@dataclass(frozen=True, slots=True)
class Answers:
    """What was asked. Texts are as typed; the SI figures beside them are what they mean."""

    name: str
    kind: str
    length_text: str
    length: Metre
    beam_text: str
    draught_text: str
    draught: Metre
    displacement_text: str
    displacement: Kilogram
    wind_text: str
    read_at: Literal["forecast 10 m", "masthead", "on deck"]
    read_height_text: str
    is_gust: bool
    volts_text: str
    housing: Literal["tunnel", "retractable"]
    bank_is_near: bool
    run_text: str


def length_text(value: Metre) -> str:
    """A length to a round 5 cm, as a person types it."""
    return f"{round(value * 20) / 20:g} m"


def mass_text(value: Kilogram) -> str:
    """A mass to a round 100 kg."""
    return f"{max(round(value / 100), 1) / 10:g} t"


def assumed_beam(kind: str, length: Metre) -> Metre:
    """Beam that goes with a length."""
    return PROPORTIONS[kind].beam * length


def assumed_draught(kind: str, length: Metre) -> Metre:
    """Draught that goes with a length."""
    return PROPORTIONS[kind].draught * length


def assumed_displacement(kind: str, length: Metre, beam: Metre, draught: Metre) -> Kilogram:
    """Displacement that goes with the sizes."""
    return PROPORTIONS[kind].fullness * length * beam * draught * SEA_WATER


def assumed_run(length: Metre, is_near: bool) -> Metre:
    """One-way route between bank and unit."""
    return 2.5 if is_near else 0.75 * length


def starting_brief(answers: Answers) -> str:
    """The text of a brief; it reads without mistakes."""
    parts = (_head(answers), _boat(answers), _wind(answers), _supply(answers), _layout(answers), _thruster(answers), _tail())
    return "\n".join(parts)


def _head(a: Answers) -> str:
    return f"""# A brief for athwart: what is asked of a thruster system, and what is there.
#
# Lines marked "assumed" were not asked; replace them by what you measure. Every quantity is typed with its unit, metric or not:
# 14.2 m, 46 ft 7 in, 70 mm2, 2/0 AWG, 25 kn. All fields: athwart new --fields. For completion in an editor that reads
# JSON Schema: athwart new --schema > brief.schema.json

athwart: 1
name: {scalar(a.name)}
"""


def _box(start: Metre, end: Metre, bottom: Metre, top: Metre) -> str:
    return f"{{from: {start:.2f} m, to: {end:.2f} m, bottom: {bottom:.2f} m, top: {top:.2f} m}}"


def _boat(a: Answers) -> str:
    share, length = PROPORTIONS[a.kind], a.length
    waterline, freeboard = 0.93 * length, share.freeboard * length
    house = 0.25 * length, (0.25 + share.house_length) * length, freeboard, freeboard + share.house_height * length
    lower = show(0.04 * a.draught if a.kind != "sailing yacht" else 0.02 * a.draught, "length", "mm", 2, plain=True)
    mast = f"""    - name: mast
      kind: mast
      box: {_box(0.56 * length, 0.56 * length + 0.2, freeboard, 1.4 * length)}   # assumed
    - name: stowed sails and rigging
      kind: furled sail
      area: {0.03 * length**2:.1f} m2         # assumed
      centroid_x: {0.6 * length:.1f} m
      centroid_height: {0.5 * length:.1f} m
"""
    beam = parse(a.beam_text, "length")
    hulls = (
        f"  hull_beam: {0.25 * beam:.2f} m          # assumed: of one hull, at the waterline\n"
        f"  hull_spacing: {0.74 * beam:.2f} m       # assumed: between the hulls' middles\n"
        if a.kind == "catamaran"
        else ""
    )
    return f"""boat:
  kind: {a.kind}
  x_from: transom             # every x below counts forward from the transom
  length_overall: {a.length_text}
  length_waterline: {waterline:.2f} m   # assumed: 93 % of the length
  beam: {a.beam_text}
{hulls}  draught: {a.draught_text}
  displacement: {a.displacement_text}
  lightest:                   # tanks empty, nobody aboard; the tunnel is judged there
    displacement: {mass_text(0.9 * a.displacement)}      # assumed: 90 % of the loaded mass
    waterline_lower: {lower}    # assumed
  windage:                    # what the wind sees from the side; heights count up from the waterline
    - name: topsides
      kind: hull
      box: {_box(0.0, length, 0.0, freeboard)}   # assumed: measure it on a profile drawing
    - name: deckhouse
      kind: house
      box: {_box(*house)}   # assumed
{mast if a.kind == "sailing yacht" else ""}  windage_uncertainty: 20 %   # the areas are assumed; say 10 % when they are measured
  hull_material: grp          # assumed: grp, steel, aluminium or wood
  petrol_aboard: no           # assumed; say "engine" or "portable tanks" if there is any
"""


def _wind(a: Answers) -> str:
    height = f"\n  read_height: {a.read_height_text}" if a.read_at == "masthead" else ""
    return f"""wind:
  speed: {a.wind_text}
  read_at: {a.read_at}{height}
  is: {"gust" if a.is_gust else "mean"}
  headings: all round

duty:                         # all assumed
  users: owner
  burst: 5 s
  pause: 15 s
  bursts_per_docking: 8
  dockings_per_day: 2
  longest_hold: 60 s
"""


def _supply(a: Answers) -> str:
    high = a.volts_text.split()[0] not in ("12",)
    return f"""supply:
  volts: {a.volts_text}
  batteries:                  # assumed
    - name: house bank
      use: house
      chemistry: agm
      volts: {a.volts_text}
      capacity: {"220" if high else "330"} Ah
      place: battery locker
    - name: starter battery
      use: engine start
      chemistry: flooded
      volts: {a.volts_text}
      capacity: 100 Ah
      place: battery locker
  alternators:                # assumed
    - name: engine alternator
      current: {"80" if high else "115"} A
      volts: {a.volts_text}
      charges: house bank
  shore_charger:              # assumed
    current: 40 A
    volts: {a.volts_text}
    charges: house bank
  house_load: 5 A             # assumed
  engine_hours_per_day: 2 h   # assumed
  shore_hours_per_day: 8 h    # assumed
"""


def _layout(a: Answers) -> str:
    length = a.length
    bank = "bow locker" if a.bank_is_near else "battery locker"
    near = f"""    - name: bow locker        # here the bank goes
      x: {0.70 * length:.1f} m
      height: -0.1 m
      access: lift hatch
      ventilated: yes
"""
    charging = f"""    - between: [battery locker, bow locker]
      plus: {0.65 * length:.1f} m              # assumed; the charging cable
"""
    return f"""layout:
  places:                     # x and height are assumed
    - name: forepeak          # here the motor is
      x: {0.84 * length:.1f} m
      height: -0.1 m
      access: lift hatch
{near if a.bank_is_near else ""}    - name: battery locker
      x: {0.22 * length:.1f} m
      height: 0 m
      access: lift hatch
      ventilated: yes
    - name: helm
      x: {0.40 * length:.1f} m
      height: 1.5 m
  routes:                     # one way, as the cable really goes
    - between: [{bank}, forepeak]
      plus: {a.run_text}
{charging if a.bank_is_near else ""}    - between: [battery locker, helm]
      plus: {0.3 * length:.1f} m              # assumed

helms:
  - name: main helm
    place: helm
    stop_within_reach: yes
    seconds_to_main_switch: 15 s    # assumed: time it
"""


def _thruster(a: Answers) -> str:
    body = 0.35 * a.draught if a.kind == "sailing yacht" else 0.75 * a.draught
    if a.housing == "tunnel":
        place = f"""      axis_depth: {0.56 * body:.2f} m         # assumed: below the loaded waterline
      hull_below_axis: {0.44 * body:.2f} m    # assumed
      tunnel_length: {max(0.045 * a.length, 0.4):.2f} m      # assumed
      entry_radius: 20 mm
"""
    else:
        place = f"""      axis_depth: {body + 0.2:.2f} m         # assumed: lowered
      height_above_waterline_for_box: 0.60 m    # assumed
"""
    locks = "    retract_interlocks: [raise only when stopped, speed limit, engine astern, locking pin, manual raise]\n"
    return f"""thrusters:
  - identity: bow
    role: bow
    place: forepeak
    instance: 0
    tunnel:
      x: {0.85 * a.length:.2f} m                # assumed
{place}      compartment_watertight: yes
    wanted:
      housings: [{a.housing}]
{locks if a.housing == "retractable" else ""}
bank:
  - name: bow bank
    feeds: [bow]
    place: {"bow locker" if a.bank_is_near else "battery locker"}

network:
  trunk:
    - {{stop: main helm, length: 0 m}}
    - {{stop: bow, length: {0.6 * a.length:.1f} m}}   # assumed
  feed_length: {0.3 * a.length:.1f} m           # assumed
"""


def _tail() -> str:
    return """choices:
  rule_set: iso small craft
  prefer: smallest adequate
"""
