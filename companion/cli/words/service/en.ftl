# Services: their orders, plates, settings, and what is handed over.
service-day = service { $day }
service-day-orders = service { $day }: { $orders }
service-first-order = first order { $time }
service-last-order = last order { $time }
service-day-begins = a service's day begins at { $time }
service-cooks = { $setting ->
    [own] cooks see their own figures, and everybody else's together
   *[hidden] each cook's figures are shown, with the names hidden
}
service-say-when = { $field }: say when, as { $day } is not the service now; write a time, such as 18:30
service-beyond = { $field }: { $value } is beyond the calendar
service-other-day = { $field }: { $value } is in the service of { $of }, not of { $day }; give another --day or time
service-no-portions = no portions are on record yet; make some with `evenhand portion`, or see `evenhand demo`
service-none-for-it = No portions are on record for it.
service-savings = What would save most:
service-nothing-yet = No service is on record yet: no portion was made. See `evenhand portion`.
service-listed = { $service }, { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}
service-file-unread = FILE: { $file }: { $why }
service-plates-unread = the plates cannot be read: { $why }
service-plate-value = plate { $plate }: { $why }
service-file-long = FILE: { $file } is { $size } bytes, expected at most { $most }
service-no-plates = FILE: no plates are on record; make one with `evenhand service plate`, or name a file of plates, with --keep to put them there
service-plate-not-there = { $field }: { $name } is not there; see `evenhand service plates`
service-plate-removed = { $plate } is off the record.
service-plate-made = { $count ->
    [0] { $plate }: nothing on it yet; price { $price }.
   *[other] { $plate }: { $things }; price { $price }.
}
service-plates-kept = { $count ->
    [one] { $count } plate
   *[other] { $count } plates
} on record.
service-plate-price = { $cost } of { $price }, { $margin } left ({ $share } is food)
service-plate-rate = at { $rate }
service-count = { $dish }: { $ready } ready, { $out } out
service-handover = The handover
page-written = { $what } written to { $path }.
