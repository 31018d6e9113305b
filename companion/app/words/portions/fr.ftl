reason-fell = Tombée
reason-tasted = Goûtée
reason-not-a-portion = Pas une portion
reason-wrong-dish = Autre plat
reason-put-back = Remise
reason-bumped = Choc au plateau
reason-own-hint = ou avec vos mots
reason-own = Raison avec vos mots

portions-no-run = Aucune série n'est en cours, il n'y a pas de portion à montrer.
portions-title = { $dish } : choisissez la portion à écarter
portion-corrected = corrigée par une autre pesée
portion-doubted = { $verdict }. { $doubt }
portion-spoken = Portion { $number }, { $mass }, { $standing }
portion-spoken-struck = Portion { $number }, { $mass }, écartée : { $reason }
strike-what-happens = Elle reste au registre, marquée, et ne compte plus.
strike-why = Pourquoi la portion { $number } ne doit-elle pas compter ?
strike-was-struck = La portion { $number } a été écartée : { $reason }.
strike-was-corrected = La portion { $number } ne compte pas : une autre pesée a pris sa place.
strike-out = Écarter
strike-count-again = La recompter
portions-newer = { $count ->
    [one] 1 nouvelle portion
   *[other] { $count } nouvelles portions
}
portions-all-listed = Toutes les portions y sont
