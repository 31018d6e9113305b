# Limits by the names that a kitchen has for them. Where a figure comes from is
# said in its source's own words.
limit-name = { $name ->
    [cooling] cooling
    [cooling-from-ambient] cooling from room temperature
    [cold-holding] cold holding
    [hot-holding] hot holding
    [hot-holding-roast] hot holding, roasts
    [reheating] reheating
    [reheating-microwave] reheating microwave
    [reheating-packaged] reheating packaged
    [date-marking] date marking
    [time-only] time only
    [time-only-cold] time only, cold
    [cook-fish-whole-cut] cook fish, whole cuts
    [cook-minced] cook minced
    [cook-poultry] cook poultry
    [cook-roast] cook roasts
    [raw-fish-freezing] freeze fish served raw
   *[other] { $written }
}
limit-source = { $document }, { $section } ({ $standing ->
    [read] read
    [quoted] read as quoted
    [from-memory] from memory
    [common-practice] common practice, no source
   *[local] this kitchen's own setting
})
limit-publication = { $title } ({ $standing ->
    [read] read
    [quoted] read as quoted
    [from-memory] from memory
    [common-practice] common practice, no source
   *[local] this kitchen's own setting
})
limit-caution = A measurement against a published limit, not a judgement of the food. Local codes and licensed practice go first.
