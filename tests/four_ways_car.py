"""One invented car as four people add it: answers typed, a table, a file by hand, the page."""

from __future__ import annotations

ID = "zorvex-wold-2018-hatch-base"
PINS = (
    *("A 1 fl+ brown/white 0.75", "A 2 fl- brown/black 0.75", "A 3 fr+ blue/white 0.75"),
    *("A 4 fr- blue/black 0.75", "A 6 ground black 1.5", "A 7 constant yellow/red 1.5"),
    *("A 8 empty", "A 9 unknown"),
)
ANSWERS = (
    *("Zorvex", "Wold", "2018-2021", "hatch, base", "all", "all", "left", "unknown", "invented"),
    *("bridged", "none", "no", "steering wheel, roof rails"),
    *("seat-belt chime: front-left front-right", ""),
    *("A", "20", "top", "1", "grey", "wire_side", "behind the radio", ""),
    *(*PINS, "", "none"),
)
"""What is typed into `loombook new vehicle`, in the order it asks; "" is an empty line."""

TABLE = """\
#Make;Zorvex
#Model;Wold
#Variant;hatch, base
#First year;2018
#Last year;2021
#Drive side;left
#Data;invented
#Radio outputs;bridged
#Factory amplifier;none
#Hybrid;no
#Restraint zones;steering wheel, roof rails
#Sound 1 name;seat-belt chime
#Sound 1 channels;front-left, front-right
#Plug A housing;two-row-20-latch-top
#Plug A shell colour;gray
#Plug A read from;wire side
Plug;Cavity;Function;Colour;Wire mm²
A;1;fl+;brn/wht;0,75
A;2;fl-;brn/blk;0,75
A;3;FR+;blue-white;0,75
A;4;FR-;Blue/Black;0,75
A;6;gnd;blk;1,5
A;7;constant;ye/rd;1,5
A;8;empty;;
A;9;unknown;;
"""
"""The same as a shop's table, with the spellings that shops have."""

BY_HAND = """\
# A copy of the commented example, with what is known put in.
schema: 1
id: zorvex-wold-2018-hatch-base
data: invented
make: Zorvex
model: Wold
variant: "hatch, base"

# -- which cars this record is about ------------------------------------------------------
scope:
  year_from: 2018
  year_to: 2021
  bodies: [all]
  markets: [all]
  drive_side: left
  trims: [all]
  options_any: []
  options_none: []
  radios: [unknown]
how_to_tell: []

# -- the radio and what it drives ---------------------------------------------------------
radio: {outputs: bridged, open_load_check: unknown, data_wake: unknown}
factory_amplifier: {feed: none}
features:
  start_stop: unknown
  hybrid: no
  noise_cancellation: unknown
  engine_sound: unknown
  emergency_call: unknown
protected_sounds:
  - sound: seat-belt chime
    channels: [front-left, front-right]
    plays_key_off: unknown
power:
  battery: {location: unknown, sensor_on_negative: unknown}
safety:
  restraint_zones: [steering wheel, roof rails]
  high_voltage_zones: []
  restraint_wait_min: unknown
channels:
  - {channel: front-left, driven_by: radio, band: unknown}
  - {channel: front-right, driven_by: radio, band: unknown}
sessions: []

# -- the plugs ------------------------------------------------------------------------------
plugs:
  - id: A
    name: plug A
    unit: radio
    location: behind the radio
    housing: two-row-20-latch-top
    shell_colours: [grey]
    read_from: wire_side
    empty: [8]
    pins:
      - {cavity: 1, function: speaker, channel: front-left, leg: positive,
         wire: {base: brown, stripe: white, size_mm2: 0.75}}
      - {cavity: 2, function: speaker, channel: front-left, leg: negative,
         wire: {base: brown, stripe: black, size_mm2: 0.75}}
      - {cavity: 3, function: speaker, channel: front-right, leg: positive,
         wire: {base: blue, stripe: white, size_mm2: 0.75}}
      - {cavity: 4, function: speaker, channel: front-right, leg: negative,
         wire: {base: blue, stripe: black, size_mm2: 0.75}}
      - {cavity: 6, function: ground, wire: {base: black, size_mm2: 1.5}}
      - {cavity: 7, function: constant, wire: {base: yellow, stripe: red, size_mm2: 1.5}}
      - {cavity: 9, function: unknown}
"""
"""The same typed into a copy of the vehicles' TEMPLATE."""
