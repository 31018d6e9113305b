# Les limites sous le nom qu'on leur donne en cuisine. La source est citée dans
# sa propre langue.
limit-name = { $name ->
    [cooling] refroidissement
    [cooling-from-ambient] refroidissement depuis l'ambiante
    [cold-holding] maintien au froid
    [hot-holding] maintien au chaud
    [hot-holding-roast] maintien au chaud, rôtis
    [reheating] remise en température
    [reheating-microwave] remise en température, micro-ondes
    [reheating-packaged] remise en température, emballé
    [date-marking] datage
    [time-only] par le temps seul
    [time-only-cold] par le temps seul, froid
    [cook-fish-whole-cut] cuire poisson et pièces entières
    [cook-minced] cuire haché
    [cook-poultry] cuire volaille
    [cook-roast] cuire rôtis
    [raw-fish-freezing] congeler poisson servi cru
   *[other] { $written }
}
limit-source = { $document }, { $section } ({ $standing ->
    [read] lu
    [quoted] lu en citation
    [from-memory] de mémoire
    [common-practice] pratique courante, sans source
   *[local] réglage de cette cuisine
})
limit-publication = { $title } ({ $standing ->
    [read] lu
    [quoted] lu en citation
    [from-memory] de mémoire
    [common-practice] pratique courante, sans source
   *[local] réglage de cette cuisine
})
limit-caution = C'est une mesure face à une limite publiée, pas un jugement sur l'aliment. La réglementation locale et les professionnels habilités priment.
