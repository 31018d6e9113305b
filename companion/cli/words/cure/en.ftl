# Curing agents: what goes in, and the dose.
cure-verdict = { $verdict ->
    [over] { $method }: over the limit
    [under] { $method }: under the level required
   *[close] { $method }: too close to the limit
}
cure-reckoned = { $method }: { $reckoning }
cure-contents-unsaid = worked out for an agent with sodium nitrite alone, since nothing else was said; one that also has nitrate must not be used so: say --contents
cure-weigh = weigh { $mass } g of { $agent }
cure-scale-unchecked = whether the scale is good enough for this was not checked: say --scale-e or --scale-within
cure-limit = { $method }: { $limit }, by { $source }

# What was typed.
cure-agent-refused = --agent: { $why }
cure-fraction-refused = --nitrite-fraction: { $why } (--nitrite-fraction-again)
cure-contents-refused = --contents: { $why }
cure-method-needed = --method is needed: how is the meat cured? write one of { $names }
cure-no-limit = --method: no limit is in force for { $method }
cure-dose-refused = { $why }
cure-too-small = { $flag }: { $why }
cure-too-small-noted = { $flag }: { $why }; { $note }
