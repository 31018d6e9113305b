# Agents de salaison : ce qui entre, et la dose.
cure-verdict = { $verdict ->
    [over] { $method } : au-dessus de la limite
    [under] { $method } : en dessous de ce qui est exigé
   *[close] { $method } : trop près de la limite
}
cure-reckoned = { $method } : { $reckoning }
cure-contents-unsaid = calculé pour un agent au seul nitrite de sodium, puisque rien d'autre n'est dit ; un agent qui contient aussi du nitrate ne doit pas servir ainsi : indiquez --contents
cure-weigh = pesez { $mass } g de { $agent }
cure-scale-unchecked = si la balance est assez bonne pour cela n'a pas été vérifié : indiquez --scale-e ou --scale-within
cure-limit = { $method } : { $limit }, selon { $source }

# Ce qui a été tapé.
cure-agent-refused = --agent : { $why }
cure-fraction-refused = --nitrite-fraction : { $why } (--nitrite-fraction-again)
cure-contents-refused = --contents : { $why }
cure-method-needed = Il faut --method : comment la viande est-elle salée ? écrivez l'un de { $names }
cure-no-limit = --method : aucune limite n'est en vigueur pour { $method }
cure-dose-refused = { $why }
cure-too-small = { $flag } : { $why }
cure-too-small-noted = { $flag } : { $why } ; { $note }
