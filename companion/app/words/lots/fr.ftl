# Lots : un aliment à travers ses étapes, chacune face à sa limite.
lots-heading = Lots
lots-none = Aucun lot n'est encore écrit
lots-how = Un lot est un fichier du dossier « lots » des données de cette cuisine : un titre et, pour chaque étape, son nom, quand elle a commencé et fini, le relevé qui l'a lue et la limite à laquelle elle est comparée.
lots-touch = Touchez un lot
lots-about = { $mark }, { $steps ->
    [one] une étape
   *[other] { $steps } étapes
}
lots-about-step = { $mark } : { $step }
lots-page = Page pour l'inspection
lots-written = La page à imprimer est dans { $path }.
lots-not-written = La page ne peut être écrite : { $why }. Rien n'a été changé.
lots-no-lot = Ce lot n'est plus dans le dossier. Revenez et choisissez encore.
