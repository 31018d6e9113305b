# What is recorded of heat, and what it is watched for.
heat-watched-for = { $name } is watched for { $words }.
heat-aim-needed = --from and --to, or --limit, is needed: watched for what?
