# The spread, as a table. Masses and shares come in formatted.
spread-portions = portions
spread-mean = mean
spread-deviation = standard deviation
spread-variation = coefficient of variation
spread-lightest = lightest
spread-heaviest = heaviest
spread-short = short
spread-on = on
spread-heavy = heavy
spread-given-away = given away
spread-share = { $share } ({ $count ->
    [one] { $count } portion
   *[other] { $count } portions
})
spread-money-known = { $grams }, { $money } for the { $count ->
    [one] { $count } portion
   *[other] { $count } portions
} whose cost is known
spread-not-known = not known
spread-without = without them
spread-with = with them
spread-others = against the others
spread-interval = { $difference } g, { $confidence } % { $low } to { $high } g
spread-no-difference = { $interval }: no difference shown
spread-elsewhere = portions of runs begun elsewhere
spread-hour = { $from } to { $to }
spread-tin = tin { $tin }
spread-no-tin = from no tin on record
spread-cook = cook { $number }
spread-everybody = everybody else
spread-nothing = No portions are on record for that time.
spread-report-ending = --report: { $path } has no ending known here; name a file that ends in .pdf, .png or .svg
spread-no-service = --day: no portions are on record for the service of { $day }; `evenhand service list` has those there are
spread-report-written = The service of { $day } written to { $path }.
