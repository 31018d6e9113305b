# Plates: what is on each, and what it costs.
plates-heading = Plates
plates-none = No plate is on record yet
plates-touch = Touch a plate to change it
plates-touch-part = Touch what is to be changed
plates-new = New plate
plates-no-price = no price
plates-put-dish = Put a dish on
plates-put-part = Put something else on
plates-remove = Take the plate off the record
plates-remove-ask = Take this plate off the record? Its dishes and their portions stay.
plates-take-off = Take it off the plate
plates-portioned = weight and cost of its portions
plates-portioned-about = Its weight and cost are those of its portions
plates-part-about = What is served of it, and what it costs
plates-fixed = { $weight } at { $cost }
plates-touch-dish = Touch the dish
plates-no-dish = No dish is on the list yet
plates-about =
    { $count ->
        [one] one thing on it
       *[other] { $count } things on it
    }
plates-about-price =
    { $count ->
        [one] { $price }, one thing on it
       *[other] { $price }, { $count } things on it
    }
