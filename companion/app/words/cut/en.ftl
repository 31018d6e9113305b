# A slab cut into pieces.
cut-heading = Cut a slab
cut-dish = For the dish
cut-touch-dish = Touch the dish
cut-no-dish = No dish is on the list yet
cut-plan =
    { $count ->
        [one] One piece of { $each }; { $over } over, beside the ends of { $ends }.
       *[other] { $count } pieces of { $each }; { $over } over, beside the ends of { $ends }.
    }
cut-nothing-between = The ends weigh as much as the slab or more. Weigh both again.
cut-no-piece = What is left between the ends is less than one piece.
cut-too-many = That would be more than 500 pieces. Check the two weights.
cut-too-few =
    { $count ->
        [one] Only one piece so far: { $fewest } are needed to correct the next cut.
       *[other] Only { $count } pieces so far: { $fewest } are needed to correct the next cut.
    }
cut-as-meant = The last pieces lie about what was meant: no correction.
cut-next-under = The last { $count } came out { $by } over on average ({ $low } to { $high }): cut the next { $by } under where you would have cut.
cut-next-over = The last { $count } came out { $by } under on average ({ $low } to { $high }): cut the next { $by } over where you would have cut.
