# Ce qui est relevé de la chaleur, et pourquoi on le surveille. Les noms des
# relevés et des limites se disent comme ils se tapent.
heat-watched-for = { $name } est sous surveillance : { $words }.
heat-aim-needed = Il faut --from et --to, ou --limit : que surveiller ?
heat-band-needed = Il faut --from et --to : quelle plage ? `evenhand heat aim` en garde une avec un relevé
heat-limit-needed = Il faut --limit : quelle limite ? `evenhand heat limits` les énumère
heat-limit-unknown = { $flag } : il n'y a pas de limite { $name } ; celles connues sont { $known }
heat-organism-unknown = --organism : { $name } n'est pas connu ici ; écrivez l'un de { $known }
heat-at-flag = { $flag } : { $why }
heat-no-file = { $flag } : { $path } ne peut être lu : { $why }
heat-no-table = { $flag } : { $path } : { $why }
heat-correction-refused = { $why }
heat-no-length-back = --back : { $text } n'est pas une durée ; écrivez-en une comme 24 h ou 90 min
heat-no-length-for = --for : { $text } n'est pas une durée ; écrivez-en une comme 20 min ou 3 h
heat-no-step = --longest-step : { $text } n'est pas une durée qui convient ; écrivez-en une d'au plus 24 h, comme 15 min

# Un relevé face à une limite. Les mots en tête se tiennent devant une phrase et
# ont la place de douze lettres.
heat-label-limit = limite
heat-label-readings = mesures
heat-label-probe = sonde
heat-label-lethality = létalité
heat-label-record = bilan
heat-label-reduction = réduction
heat-label-corrected = corrigé
heat-label-limit-from = source
heat-label-outcome = { $outcome ->
    [broken] DÉPASSÉ
    [kept] respecté
    [running] jusqu'ici
    [cannot-tell] pas connu
    [too-close] TROP JUSTE
   *[noted] à noter
}
heat-label-alarm = { $alarm ->
    [quiet] à venir
    [look] À VOIR
    [close] TROP JUSTE
    [act] AGISSEZ
   *[over] DÉPASSÉ
}
heat-about = { $name } : { $about }
heat-readings = de { $from } à { $to }
heat-lethality = { $minutes } minutes à { $at } degC, z { $z } degC ({ $source }) ; { $gaps } min de trous non comptées.
heat-reduction = { $log } log10 de { $organism } : D { $d } min à { $at } degC, z { $z } degC ({ $source }) ; { $gaps } min de trous non comptées.
heat-organism = { $name ->
    [salmonella-beef] Salmonella dans le bœuf cuit et rôti
    [listeria-meat] Listeria monocytogenes dans la viande, selon les 70 degC pendant 2 min des guides européens
    [listeria-fatty-beef] Listeria monocytogenes Scott A dans le bœuf haché gras
   *[other] { $written }
}
heat-corrections = { $count } en vigueur ; le relevé lui-même reste comme il a été mesuré
heat-judged = { $limit } : { $outcome }
heat-limits-region = région { $region } ; les limites propres à la cuisine et sa région sont dans { $file }, dans le dossier des données

# Une prévision.
heat-for-band = Pour { $band } :
heat-times-in-ten = { $times } fois sur dix, la vérité devrait se trouver dans l'intervalle.
heat-mornings = { $count ->
    [one] { $count } matin précédent a été regardé.
   *[other] { $count } matins précédents ont été regardés.
}

# De combien une sonde peut se tromper.
heat-probe-needed = Il faut --type : le fichier des limites ne dit pas ce qu'est la sonde
heat-probe-good = juste à { $within } près, à { $at } degC (incertitude élargie, k = 2, JCGM 100)
heat-probe-chain = type { $kind }, classe { $class }, convertisseur { $converter } degC, soudure froide { $junction } degC ; { $source }
heat-probe-in-file = dans { $file }, pour tout ce qui est jugé :
heat-probe-by-file = comme le dit le fichier des limites

# Un relevé au registre.
heat-written-out = { $count } mesures de { $name } sont dans { $path }.
heat-no-reading = pas encore de mesure
heat-last-reading = { $celsius } degC le { $at }
heat-listed = { $name } : { $last }
heat-listed-for = { $name } : { $last }, pour { $aim }
heat-no-log = Aucun relevé de température n'est encore au registre ; `evenhand heat watch` en commence un.
heat-gap = trou de { $seconds } s sans mesure
heat-left-out = laissé de côté
heat-added = { $by } degC ajoutés
heat-correction = correction { $number } : de { $from } à { $to } { $what } : { $reason }
heat-correction-lifted = correction { $number } : de { $from } à { $to } { $what } : { $reason }, levée depuis
heat-line-left-out = laissée de côté : { $why }
heat-taken-in = { $added } mesures sont maintenant dans le relevé { $name } ; { $there } y étaient déjà ; { $gaps } trous.
heat-marked = { $name } : { $word }, le { $at }
heat-marker-wrong = { $flag } : { $text } est vide ou dépasse 60 caractères ; écrivez un mot ou deux, comme "fire out"
heat-no-correction-number = --lift : { $text } n'est pas le numéro d'une correction ; écrivez un nombre entier
heat-lifted = La correction { $number } est levée ; elle reste au registre.
heat-correction-needed = Il faut --leave-out ou --add : qu'est-ce qui ne va pas dans cette période ?
heat-corrected = La correction { $number } est ajoutée à { $name } ; ce qui a été mesuré reste au registre.

# Surveiller.
heat-name-twice = --name : { $name } est là deux fois ; chaque sonde a son propre relevé
heat-place-needed = Il faut --port ou --simulated : où est la sonde ? `evenhand ports` énumère les ports
heat-no-link = la liaison ne peut être ouverte : { $why }
heat-link-broke = la liaison avec la balance est rompue ; recommencez : ce qui a été relevé est gardé
heat-probes = { $probes ->
    [one] --name : { $names } relevés sont nommés, mais l'instrument donne { $probes } sonde
   *[other] --name : { $names } relevés sont nommés, mais l'instrument donne { $probes } sondes
}
heat-not-recorded = Pas relevé : { $name } : { $why }.
heat-recorded-again = Les mesures sont de nouveau relevées.
heat-kept = { $name }  { $celsius } degC
heat-kept-after-gap = { $name }  { $celsius } degC  (après un trou)
heat-limit-from = limite selon { $source }. { $caution }
