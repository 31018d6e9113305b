# L'écart, en tableau.
spread-portions = nombre de portions
spread-mean = moyenne
spread-deviation = écart type
spread-variation = coefficient de variation
spread-lightest = la plus légère
spread-heaviest = la plus lourde
spread-short = manque
spread-on = au poids
spread-heavy = en trop
spread-given-away = donné
spread-share = { $share } ({ $count ->
    [one] { $count } portion
   *[other] { $count } portions
})
spread-money-known = { $grams }, { $money } pour { $count ->
    [one] la { $count } portion dont le coût est connu
   *[other] les { $count } portions dont le coût est connu
}
spread-not-known = pas connu
spread-without = sans elles
spread-with = avec elles
spread-others = face aux autres
spread-interval = { $difference } g, { $confidence } % de { $low } à { $high } g
spread-no-difference = { $interval } : aucune différence ne se voit
spread-elsewhere = portions de séries commencées ailleurs
spread-hour = de { $from } à { $to }
spread-tin = bac { $tin }
spread-no-tin = d'aucun bac noté
spread-cook = cuisinier { $number }
spread-everybody = tous les autres
spread-nothing = Aucune portion n'est notée pour ce temps-là.
spread-report-ending = --report : { $path } n'a pas de terminaison connue ; nommez un fichier qui finit en .pdf, .png ou .svg
spread-no-service = --day : aucune portion n'est notée pour le service du { $day } ; `evenhand service list` montre ceux qu'il y a
spread-report-written = Le service du { $day } est écrit dans { $path }.
