# Ce qu'on surveille dans un relevé de température : une plage ou une limite.
aim-title = Que surveiller pour { $name } ?
aim-title-unnamed = Que surveiller dans le relevé de température ?
aim-band = Une plage où rester
aim-limit = Ou une limite à respecter

# Lu à voix haute : les boutons qui déplacent une borne de la plage.
aim-lower-end = Borne inférieure { $step }
aim-upper-end = Borne supérieure { $step }
