"""Slips that a person makes, each a small edit of an example: (name, example, what was written, what is written now)."""

HUT = "first/larkfold.curb"
BOAT = "boat/gribble.curb"
VAN = "heronmoor/recommission.curb"
LAY_UP = "heronmoor/lay_up.curb"

SLIPS = [
    # how it is written
    ("brace_forgotten", HUT, '      set pit_lid to open\n    }\n    step "Shut the stop valve" {',
     '      set pit_lid to open\n    step "Shut the stop valve" {'),
    ("word_misspelled", HUT, "ensures shut_up\n", "ensure shut_up\n"),
    ("quotation_marks_of_a_word_processor", HUT, 'note "What is left in the pipe comes out in a spurt, then stops."',
     "note “What is left in the pipe comes out in a spurt, then stops.”"),
    ("statement_outside_a_step", HUT, '    step "Shut the kitchen tap" { set kitchen_tap to shut }',
     "    set kitchen_tap to shut"),
    ("unit_forgotten", HUT, "copper_15 0.2 m", "copper_15 0.2"),
    ("unit_of_another_thing", HUT, "copper_15 4.9 m", "copper_15 4.9 bar"),
    # names
    ("module_misspelled", HUT, "use water\n", "use watr\n"),
    ("part_misspelled", HUT, "      set kitchen_tap to open\n      note", "      set kitchentap to open\n      note"),
    ("position_misspelled", HUT, '    step "Shut the drain cock" { set pit_drain to shut }',
     '    step "Shut the drain cock" { set pit_drain to closed }'),
    ("pump_named_as_the_source", BOAT, "flow tank to t until", "flow pump to t until"),
    # what is done
    ("cover_left_shut", HUT, "      set pit_lid to open\n", '      note "It is heavy."\n'),
    ("tap_opened_too_early", HUT, '    step "Shut the kitchen tap" { set kitchen_tap to shut }\n', ""),
    ("drain_forgotten", HUT, "      set pit_drain to open\n", ""),
    ("drain_not_declared", BOAT, '      drain tank, pipes through tank_drain until stops "Nothing but drops" at most 40 L\n',
     ""),
    ("flow_left_running", HUT, "at least 5 L\n      set kitchen_tap to shut\n", "at least 5 L\n"),
    ("nobody_looked", BOAT, "      verify all taps are shut\n", '      note "Feel that they are tight."\n'),
    ("end_not_as_promised", HUT, '    step "Put the lid back on the pit" { set pit_lid to shut }\n', ""),
    ("done_twice", HUT, '    step "Shut the drain cock" { set pit_drain to shut }',
     '    step "Shut the drain cock" { set pit_drain to shut  set kitchen_tap to shut }'),
    ("pump_draws_from_the_empty_tank", BOAT, "      set pump_valve to to_right\n", ""),
    ("helper_forgotten", VAN, '      helper "One goes along the joints and calls out"\n', ""),
    ("heater_plug_forgotten", VAN, "      set heater.plug to fitted\n", ""),
    ("pump_left_on", LAY_UP, '    step "Switch the pump off again" { set pump to off }\n', ""),
]
