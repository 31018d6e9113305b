# What is typed on the mixing screens.
entry-leave = Leave it
entry-enter = Enter
entry-caption = { $field ->
    [title] What is it?
    [ingredient] Name of the ingredient
    [number] How much
    [amount] How much there is to be of it
    [slot] What was that?
    [packet] What is on the packet of the curing agent?
    [fraction] Sodium nitrite in the agent, from its label
    [label-again] Read the packet in your hand: how much of it is sodium nitrite?
    [ppm] Ingoing nitrite
    [pick-up] Share of its raw weight that the meat takes up
    [note] Note
    [tasting] How was it? (a word, or nothing)
    [due-in] In how many days is it due out?
    [turn-every] Turned or looked at every how many hours? 0 for never
    [loss] How much of its weight is it to lose in drying?
    [change] How much more of it, next time?
    [of-water] Salt, per cent of the water
    [of-solution] Salt, per cent of the whole brine
    [salometer] Salometer degrees
    [density] Density, kg/m³
    [temperature] How warm is it?
    [sugar] Sugar, per cent of the whole brine
    [correct-to] What should it be? Salt, per cent of the water
    [brine-mass] How much brine is there?
   *[vessel] Name of the vessel
}
entry-caption-about = { $caption }: { $about }
entry-hint = { $field ->
    [title] Batches of one name are compared with one another.
    [slot] A curing agent is set up on the cure screen, with its label.
    [fraction] Read it from the packet. Nothing is assumed.
    [label-again] The agent is weighed only when this is what the mix was worked out for.
    [pick-up] Weigh a piece raw and again cured, where it is not known.
    [tasting] 1 never again, 5 as it should be, 9 the best yet.
    [due-in] 3 is three days; write 36h for hours.
    [loss] What is on the scale now is its first weight.
    [change] Below zero for less.
    [sugar] Sugar makes brine denser without making it saltier. 0 for none.
   *[other] {""}
}

# What was typed and cannot be used, and what is expected.
mixing-typed = “{ $text }” cannot be used: { $expected }
mixing-typed-nothing = nothing was written: { $expected }
mixing-expected = { $field ->
    [mass] write a weight above zero, in grams or with its unit, such as 250 or 1.2kg
    [fraction] write per cent of sodium nitrite as the packet says, above 0 and at most 100, such as 6.25
    [ppm] write parts per million from 0 to 1000000, without a % sign, such as 120
    [pick-up] write per cent of the raw weight, above 0 and at most 100, such as 10
    [due-in] write a time above zero and within two years, such as 3 for days or 36h
    [turn-every] write a minute or more, such as 12 for hours or 90min; 0 for never
    [loss] write per cent of the first weight, above 0 and below 80, such as 30
    [change] write per cent above −100, such as 5 or −5
    [of-water] write per cent of the water from 0 to 35.86, which is saturation at 60 °F
    [of-solution] write per cent of the whole from 0 to 26.395, which is saturation at 60 °F
    [salometer] write degrees from 0 to 100, which are per cent of saturation at 60 °F
    [density] write kilograms per cubic metre of a brine at that temperature, such as 1070
    [temperature] write a temperature, such as 4 or 39degF
    [sugar] write per cent of the whole from 0 to 67, or 0 for none
    [words] write a short name of one line
   *[number] write a number above zero, such as 2.5
}
