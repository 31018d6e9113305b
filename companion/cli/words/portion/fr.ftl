# Les portions comme elles viennent, et ce qui se dit à côté.
portion-verdict = { $verdict ->
    [short] manque
    [on] au poids
   *[heavy] en trop
}
portion-known-to = connue à { $within }
portion-either = ce pourrait donc être l'un ou l'autre
portion-corrects = corrige la portion { $number }
portion-doubt = { $doubt ->
    [maybe-two] peut-être deux portions
    [taken-off-pan] ôtée du plateau
    [hasty] hâtive
    [touched] touchée
    [maybe-changed] peut-être changée
   *[unknown] doute inconnu
}
portion-struck = écartée : { $reason }
portion-count = --count : { $value } n'est pas un nombre de portions ; écrivez un nombre entier au-dessus de zéro, comme 20
portion-speed = { $field } : { $value } n'est pas une vitesse ; écrivez ses secondes par seconde, de 0.01 à 10000, comme 10
portion-target = --target : { $why }
portion-no-scale = --port ou --simulated manque : où est la balance ? `evenhand ports` montre les ports
portion-other-mode = { $asked } : le scénario { $title } est pour { $is } ; choisissez un autre scénario, ou { $is }
portion-other-size = Le cuisinier de { $title } fait des portions de { $makes }, non de { $asked }.
portion-no-link = le lien ne peut pas être ouvert : { $why }
portion-picture-failed = --picture : { $why }
portion-no-interrupts = Ctrl-C ne peut pas être écouté : { $why }
portion-cannot-begin = la série ne peut pas commencer : { $why }
portion-link-broke = le lien avec la balance s'est rompu ; recommencez : la balance garde ce qui n'a pas été noté
portion-resumed = La série de { $time } continue ; { $count } de ses portions sont notées.
portion-recorded-again = Les portions sont de nouveau notées.
portion-no-run = aucune série n'a commencé
portion-out = Hors du froid depuis { $out }, limite { $limit }.
portion-melting = sorti { $out }, reste { $left }
portion-melting-over = sorti { $out }, { $over } de trop
portion-out-over = Hors du froid depuis { $out }, limite { $limit }, dépassée de { $over } : à remettre au froid.
portion-lost = { $count ->
    [one] { $count } portion perdue
   *[other] { $count } portions perdues
} : il en a été fait plus que la balance ne pouvait garder.
portion-unsent = { $count ->
    [one] { $count } portion n'est pas encore notée
   *[other] { $count } portions ne sont pas encore notées
} : la balance les garde et les envoie quand le lien est rétabli.
