# Ce qu'une pièce prend dans une saumure ou une marinade. Les pourcentages sont de son poids cru.
uptake-bath = Le bain contient { $strength } % de sel. Une fois réparti, { $cut } arrive à { $end } % de sel, à { $doubt } près.
uptake-water-unsaid = On ne sait pas combien d'eau contient { $name } : tout ce qui n'est pas sel compte comme eau, le bain est donc plus fort qu'il n'est dit ici.
uptake-gain = Après { $span } elle a pris { $middle } % (de { $from } à { $to } pour huit lots sur dix).
uptake-salt = Dont sel { $middle } % (de { $from } à { $to }) et eau { $water } % (de { $waterfrom } à { $waterto }).
uptake-core = Le cœur est alors à { $middle } % de sel (de { $from } à { $to }).
uptake-gain-not-known =
    { $more ->
        [one] On ne sait pas encore ce qu'elle prend : pesez encore un lot à l'entrée et à la sortie.
       *[other] On ne sait pas encore ce qu'elle prend : pesez encore { $more } lots à l'entrée et à la sortie.
    }
uptake-salt-not-known =
    { $more ->
        [one] On ne sait pas encore combien de sel elle prend : pesez encore un lot à l'entrée et à la sortie, et mesurez son bain avant et après.
       *[other] On ne sait pas encore combien de sel elle prend : pesez encore { $more } lots à l'entrée et à la sortie, et mesurez leur bain avant et après.
    }
uptake-out-at = Sortir à { $at } pour { $wanted } % au cœur (de { $from } à { $to } pour huit lots sur dix).
uptake-out-at-open = Sortir à { $at } pour { $wanted } % au cœur (pas avant { $from } ; un lot sur dix n'y arrive jamais).
uptake-then = La pièce entière est alors à { $salt } % : le cœur y monte en s'égalisant au froid. Laissée pour toujours, elle arriverait à { $end } %.
uptake-never = Le cœur n'arrive pas à { $wanted } % dans ce bain : il s'arrête à { $end } %. Mettez plus de sel, ou moins de viande.
uptake-when-not-known =
    { $more ->
        [one] On ne sait pas encore quand le cœur est à { $wanted } % : pesez encore un lot à l'entrée et à la sortie, et mesurez son bain avant et après. D'après ce qui est publié, il faut de { $from } à { $to }, ce qui n'est pas un plan.
       *[other] On ne sait pas encore quand le cœur est à { $wanted } % : pesez encore { $more } lots à l'entrée et à la sortie, et mesurez leur bain avant et après. D'après ce qui est publié, il faut de { $from } à { $to }, ce qui n'est pas un plan.
    }
uptake-for-ever = toujours
uptake-gained = { $cut } a pris { $mass }, { $percent } % de son poids cru, en { $span }.
uptake-lost = { $cut } a perdu { $mass }, { $percent } % de son poids cru, en { $span }.
uptake-found = { $salt } de sel sont entrés, à { $doubt } près : { $percent } % de son poids cru. Le reste du changement est de l'eau.
uptake-not-told = On ne sait pas ce qui en est sel et ce qui en est eau : peser la pièce seule ne le dit pas. Mesurez le bain avant et après, ou la pièce avec un appareil.
uptake-caution = Calculé, non mesuré dans cette pièce, pour un bain remué et des pièces ni injectées ni désossées de l'intérieur. Cela ne dit jamais qu'un aliment est prêt, salé à cœur ou se conserve. Les règles locales et la pratique agréée passent d'abord.
# Ce qui ne se peut pas d'un trempage : il y avait { $value }.
uptake-refused = { $field ->
    [salt] Sel du bain : il en faut. Écrivez le sel, ou une sauce ou une pâte avec le sel de son étiquette.
    [water] Eau du bain : trop peu pour que son sel s'y dissolve. Mettez plus d'eau ; le salage à sec ne se calcule pas ainsi.
    [temperature] Température : { $value } n'est pas celle d'une saumure. Écrivez-en une de −3 à 30 °C.
    [out] Heure de sortie : { $value } après l'entrée. La sortie vient après l'entrée.
    [mass] Poids : { $value } ne se peut pas. Pesez les mêmes pièces sans leur récipient : de la moitié au double de ce qui est entré.
    [bath-after] Force du bain après : { $value } ne se peut pas. Elle est plus basse qu'avant, sans qu'il manque plus de sel que la pièce n'en tient.
    [bath-mass] Poids du bain après : { $value } ne se peut pas. Pesez le bain d'où sort cette pièce.
    [in-piece] Sel dans la pièce : { $value } ne se peut pas. Écrivez le pourcentage de ce qui est sorti, pas plus que le bain n'en donne.
    [within] À … près : { $value } ne se peut pas. Écrivez des points de pourcentage au-dessus de 0, comme 0,2.
   *[other] { $value } ne peut pas servir ici.
}
