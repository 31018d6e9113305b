# The items on the left: one short word each.
rail-bench = Bench
rail-dishes = Dishes
rail-portions = Portions
rail-mix = Mix
rail-service = Service
rail-prep = Prep
rail-heat = Heat
rail-scale = Scale
rail-spoken = { $screen } screen

# Buttons and words that many screens share.
back = Back
next = Next
space = Space
letter-case = A / a
erase = Erase
erase-all = Erase all
probe = Probe
probe-none = none
# The buttons beside a list that is longer than its place.
list-up = Further up
list-down = Further down
